#include "viewer/window/script_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <sstream>

#include "grid/files.h"
#include "grid/problem.h"

namespace tidemark::viewer {

namespace {

constexpr double most = 1e6; ///< more is no pixel, place or time

const std::vector<std::string> verbs{"open",       "size", "key",      "type",   "click",      "point",    "press", "drag",  "drag-minutes", "turn",
                                     "wheel",      "wait", "wait-for", "expect", "expect-not", "remember", "print", "screenshot"};

std::string trimmed(const std::string& s) {
    const auto a = s.find_first_not_of(" \t\r"), b = s.find_last_not_of(" \t\r");
    return a == std::string::npos ? "" : s.substr(a, b - a + 1);
}

} // namespace

ScriptText::ScriptText(const std::filesystem::path& file) : file_(file) {
    std::istringstream in(grid::read_text(file));
    int n = 0;
    for (std::string text; std::getline(in, text);) {
        ++n;
        text = trimmed(text);
        if (text.empty() || text.front() == '#')
            continue;
        const auto gap = text.find_first_of(" \t");
        ScriptLine line{n, text.substr(0, gap), gap == std::string::npos ? "" : trimmed(text.substr(gap))};
        if (std::find(verbs.begin(), verbs.end(), line.verb) == verbs.end())
            refuse(line, "unknown word \"" + line.verb + "\"", fmt::format("{}", fmt::join(verbs, ", ")));
        lines_.push_back(std::move(line));
    }
}

std::string ScriptText::where(const ScriptLine& line) const { return fmt::format("{}:{}", file_.string(), line.number); }

void ScriptText::refuse(const ScriptLine& line, const std::string& what, const std::string& allowed) const {
    throw grid::BadInput(where(line), what, allowed);
}

std::string ScriptText::filled(const ScriptLine& line, const std::map<std::string, std::string>& remembered) const {
    std::string s = line.rest;
    for (auto at = s.find("${"); at != std::string::npos; at = s.find("${", at)) {
        const auto end = s.find('}', at);
        if (end == std::string::npos)
            refuse(line, "${ without }");
        const std::string name = s.substr(at + 2, end - at - 2);
        std::string value;
        if (const auto found = remembered.find(name); found != remembered.end())
            value = found->second;
        else if (const char* set = std::getenv(name.c_str()))
            value = set;
        else
            refuse(line, "nothing was remembered as " + name + ", and the environment has none");
        s.replace(at, end - at + 1, value);
        at += value.size();
    }
    return s;
}

std::pair<std::string, std::string> key_value(const std::map<std::string, std::string>& state, const std::string& text) {
    if (text.starts_with("control "))
        return {"control", text.substr(8)};
    std::string best;
    for (const auto& [key, value] : state)
        if (key.size() > best.size() && (text == key || text.starts_with(key + " ")))
            best = key;
    return {best, text.size() > best.size() ? text.substr(best.size() + 1) : ""};
}

std::vector<double> numbers_at_end(std::string& text, int n) {
    std::vector<double> all;
    for (int k = 0; k < n; ++k) {
        const auto gap = text.find_last_of(' ');
        const std::string word = gap == std::string::npos ? text : text.substr(gap + 1);
        double value = 0;
        const auto read = std::from_chars(word.data(), word.data() + word.size(), value); // of any locale
        if (word.empty() || read.ec != std::errc{} || read.ptr != word.data() + word.size() || !(std::abs(value) <= most))
            return {};
        all.insert(all.begin(), value);
        text = gap == std::string::npos ? "" : text.substr(0, gap);
    }
    return all;
}

} // namespace tidemark::viewer
