#include "viewer/studio/settings.h"

#include "grid/files.h"
#include "viewer/studio/plan_text_detail.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>

namespace tidemark::viewer {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_recent = 12;
constexpr const char *settings_name = "viewer.toml", *recent_name = "recent.txt";

/// An XDG place: what the variable says when it is absolute, as their specification has it, else below the home folder.
fs::path xdg(const char* variable, const char* below_home) {
    const char* set = std::getenv(variable);
    if (set != nullptr && fs::path(set).is_absolute()) return fs::path(set) / "tidemark";
    const char* home = std::getenv("HOME");
    return fs::path(home != nullptr && *home != 0 ? home : "/tmp") / below_home / "tidemark";
}

std::string text_of(const fs::path& file) {
    try {
        return grid::read_text(file, 1 << 20);
    } catch (const std::exception&) {
        return {}; // as if it weren't there
    }
}

void write(const fs::path& folder, const std::string& name, const std::string& text) {
    try {
        grid::OutputFolder out(folder);
        out.write(name, std::string_view(text));
        out.commit();
    } catch (const std::exception&) { // a full disk must not stop a painter
    }
}

/// Values by key; what is no number, or out of range, stays as it was.
class Lenient {
  public:
    explicit Lenient(std::string text) : text_(std::move(text)), tables_(tables_of(text_)) {}
    void number(const char* key, double& to, double least, double most) const {
        const std::string value = of(key);
        double v = 0;
        const auto read = std::from_chars(value.data(), value.data() + value.size(), v);
        if (read.ec == std::errc{} && read.ptr == value.data() + value.size() && v >= least && v <= most) to = v;
    }
    void whole(const char* key, int& to, int least, int most) const {
        double v = to;
        number(key, v, least, most);
        to = static_cast<int>(std::lround(v));
    }
    void truth(const char* key, bool& to) const {
        const std::string value = of(key);
        if (value == "true" || value == "false") to = value == "true";
    }

  private:
    std::string text_;
    std::vector<TextTable> tables_;
    std::string of(const char* key) const {
        const TextEntry* e = tables_.front().entry(key);
        return e ? text_.substr(e->value_begin, e->value_end - e->value_begin) : std::string();
    }
};

std::vector<fs::path> lines_of(const std::string& text) {
    std::vector<fs::path> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        if (end > at) lines.emplace_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

} // namespace

Memory::Memory() : Memory(xdg("XDG_CONFIG_HOME", ".config"), xdg("XDG_STATE_HOME", ".local/state")) {}
Memory::Memory(fs::path config_folder, fs::path state_folder) : config_(std::move(config_folder)), state_(std::move(state_folder)) {}

Settings Memory::settings() const {
    Settings s;
    const Lenient in(text_of(config_ / settings_name));
    in.whole("window_width", s.window_width, 320, 16384), in.whole("window_height", s.window_height, 240, 16384);
    in.truth("maximised", s.maximised), in.truth("dark", s.dark);
    in.whole("text_percent", s.text_percent, 80, 200);
    in.number("cell_mm", s.cell_mm, 0.1, 5);
    in.whole("memory_mb", s.memory_mb, 16, 65536);
    in.number("screen_dpi", s.screen_dpi, 0, 1200);
    return s;
}

void Memory::save(const Settings& s) const {
    write(config_, settings_name,
          fmt::format("# How tidemark-viewer was left. What is missing or can't be understood is as at first.\n"
                      "window_width = {}\nwindow_height = {}\nmaximised = {}\ntext_percent = {}\ndark = {}\ncell_mm = {:g}\n"
                      "memory_mb = {}\nscreen_dpi = {:g}\n",
                      s.window_width, s.window_height, s.maximised, s.text_percent, s.dark, s.cell_mm, s.memory_mb, s.screen_dpi));
}

std::vector<fs::path> Memory::recent() const {
    std::vector<fs::path> there;
    std::error_code none;
    for (const fs::path& file : lines_of(text_of(state_ / recent_name)))
        if (there.size() < most_recent && fs::is_regular_file(file, none)) there.push_back(file);
    return there;
}

void Memory::add_recent(const fs::path& plan) const {
    std::error_code none;
    const fs::path whole = fs::absolute(plan, none).lexically_normal();
    if (none || whole.string().find('\n') != std::string::npos) return;
    std::string text = whole.string() + "\n";
    std::size_t count = 1;
    for (const fs::path& file : recent())
        if (file != whole && ++count <= most_recent) text += file.string() + "\n";
    write(state_, recent_name, text);
}

fs::path Memory::recovery_folder() const { return state_ / "recovery"; }

} // namespace tidemark::viewer
