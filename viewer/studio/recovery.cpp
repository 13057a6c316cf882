#include "viewer/studio/recovery.h"

#include "grid/files.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <csignal>
#include <unistd.h>

namespace tidemark::viewer {

namespace fs = std::filesystem;

namespace {

constexpr std::chrono::seconds every{60};
constexpr const char* begins = "# left by tidemark-viewer, of ";

/// One copy a program and plan: its name begins with the program's process id.
std::string copy_name(const fs::path& plan) {
    std::error_code none;
    const std::size_t hash = std::hash<std::string>{}(fs::absolute(plan, none).lexically_normal().string());
    return fmt::format("{}-{:016x}.toml", getpid(), hash);
}

bool program_runs(const std::string& name) {
    int pid = 0;
    const auto read = std::from_chars(name.data(), name.data() + name.size(), pid);
    return read.ec == std::errc{} && pid > 1 && pid != getpid() && kill(pid, 0) == 0;
}

} // namespace

Recovery::Recovery(fs::path folder) : folder_(std::move(folder)), last_(std::chrono::steady_clock::now()) {}

void Recovery::keep_if_due(const Document& document) {
    const auto now = std::chrono::steady_clock::now();
    if (!document.changed() || document.revision() == revision_ || now - last_ < every) return;
    keep(document);
}

void Recovery::keep(const Document& document) {
    last_ = std::chrono::steady_clock::now();
    revision_ = document.revision();
    try {
        std::error_code none;
        const fs::path whole = fs::absolute(document.file(), none).lexically_normal();
        grid::OutputFolder out(folder_);
        out.write(copy_name(document.file()), std::string_view(fmt::format("{}{}\n{}", begins, whole.string(), document.text())));
        out.commit();
    } catch (const std::exception&) { // nothing that a painter could mend now
    }
}

void Recovery::forget(const Document& document) {
    std::error_code none;
    fs::remove(folder_ / copy_name(document.file()), none);
    revision_ = -1;
}

void Recovery::forget(const Recovered& r) {
    std::error_code none;
    fs::remove(r.copy, none);
}

std::vector<Recovered> Recovery::left_over() const {
    std::vector<Recovered> all;
    std::error_code none;
    for (fs::directory_iterator it(folder_, none), end; !none && it != end; it.increment(none)) {
        if (it->path().extension() != ".toml" || program_runs(it->path().filename().string())) continue;
        std::string text;
        try {
            text = grid::read_text(it->path(), 2 << 20);
        } catch (const std::exception&) {
            continue;
        }
        const std::size_t line = text.find('\n');
        if (text.rfind(begins, 0) != 0 || line == std::string::npos) continue;
        std::error_code unread;
        const auto changed = fs::last_write_time(it->path(), unread);
        const auto when = unread ? std::chrono::system_clock::time_point{} : std::chrono::system_clock::now() + std::chrono::duration_cast<std::chrono::system_clock::duration>(changed - fs::file_time_type::clock::now());
        const std::string plan = text.substr(std::string_view(begins).size(), line - std::string_view(begins).size());
        all.push_back({it->path(), plan, text.substr(line + 1), when});
    }
    std::sort(all.begin(), all.end(), [](const Recovered& a, const Recovered& b) { return a.when > b.when; });
    return all;
}

} // namespace tidemark::viewer
