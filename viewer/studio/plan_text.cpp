#include "viewer/studio/plan_text_detail.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace tidemark::viewer {

namespace {

constexpr std::string_view bare_letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-";

/// Goes through a text; never beyond its end.
class Walk {
  public:
    Walk(std::string_view text, std::size_t at, std::size_t end) : text_(text), at_(at), end_(end) {}
    bool over() const { return at_ >= end_; }
    std::size_t at() const { return at_; }
    char now() const { return over() ? '\n' : text_[at_]; }
    bool sees(std::string_view word) const { return text_.substr(at_, std::min(word.size(), end_ - at_)) == word; }
    void go(std::size_t n = 1) { at_ = std::min(end_, at_ + n); }
    void blanks() {
        while (!over() && (now() == ' ' || now() == '\t')) go();
    }
    void line() {
        while (!over() && now() != '\n') go();
        go();
    }
    /// Blanks, ends of lines and comments, as within a list.
    void between() {
        for (;;) {
            while (!over() && std::string_view(" \t\r\n,").find(now()) != std::string_view::npos) go();
            if (now() != '#' || over()) return;
            line();
        }
    }
    void quoted() {
        const std::string quote(1, now()), three = quote + quote + quote;
        const bool escapes = quote == "\"";
        const std::string ends = sees(three) ? three : quote;
        go(ends.size());
        while (!over() && !sees(ends)) {
            if (ends.size() == 1 && now() == '\n') return;
            go(escapes && now() == '\\' ? 2 : 1);
        }
        go(ends.size());
    }
    /// To behind the bracket that closes the one here.
    void bracketed() {
        const char open = now(), close = open == '[' ? ']' : '}';
        go();
        for (;;) {
            between();
            if (over()) return;
            if (now() == close) return go();
            if (now() == '[' || now() == '{')
                bracketed();
            else if (now() == '"' || now() == '\'')
                quoted();
            else
                go();
        }
    }
    /// A value; behind it stands a comma, a comment, a bracket or the end of the line.
    void value() {
        if (now() == '"' || now() == '\'') return quoted();
        if (now() == '[' || now() == '{') return bracketed();
        const std::size_t from = at_;
        while (!over() && std::string_view("#\n,}]").find(now()) == std::string_view::npos) go();
        while (at_ > from && std::string_view(" \t\r").find(text_[at_ - 1]) != std::string_view::npos) --at_;
    }
    /// Parts joined by dots, without their quotes; empty when there is no key here.
    std::string key() {
        std::string name;
        for (;;) {
            blanks();
            const std::size_t from = at_;
            if (now() == '"' || now() == '\'') {
                quoted();
                name += unquoted(text_.substr(from, at_ - from));
            } else {
                while (!over() && bare_letters.find(now()) != std::string_view::npos) go();
                name += text_.substr(from, at_ - from);
            }
            blanks();
            if (now() != '.' || over()) return name;
            name += '.', go();
        }
    }

  private:
    std::string_view text_;
    std::size_t at_, end_;
};

bool entry_at(Walk& walk, TextEntry& e) {
    e.begin = walk.at();
    e.key = walk.key();
    if (e.key.empty() || walk.now() != '=') return false;
    walk.go();
    walk.blanks();
    e.value_begin = walk.at();
    walk.value();
    e.value_end = walk.at();
    return true;
}

} // namespace

const TextEntry* TextTable::entry(std::string_view key) const {
    const auto it = std::find_if(entries.begin(), entries.end(), [&](const TextEntry& e) { return e.key == key; });
    return it == entries.end() ? nullptr : &*it;
}

std::size_t TextTable::end() const { return entries.empty() ? body : entries.back().line_end; }

std::vector<TextTable> tables_of(std::string_view text) {
    std::vector<TextTable> tables(1);
    Walk walk(text, 0, text.size());
    while (!walk.over()) {
        const std::size_t line = walk.at();
        walk.blanks();
        if (walk.now() == '[') {
            const bool of_list = walk.sees("[[");
            walk.go(of_list ? 2 : 1);
            TextTable table{walk.key(), of_list, line, 0, {}};
            walk.line();
            table.body = walk.at();
            tables.push_back(std::move(table));
            continue;
        }
        TextEntry e;
        if (entry_at(walk, e)) {
            walk.line();
            e.line_end = walk.at();
            tables.back().entries.push_back(std::move(e));
        } else {
            walk.line();
        }
    }
    return tables;
}

std::vector<TextEntry> inline_entries(std::string_view text, std::size_t begin, std::size_t end) {
    std::vector<TextEntry> entries;
    if (begin >= end || text[begin] != '{') return entries;
    Walk walk(text, begin + 1, end - 1);
    for (;;) {
        walk.between();
        TextEntry e;
        if (walk.over() || !entry_at(walk, e)) return entries;
        e.line_end = e.value_end;
        entries.push_back(std::move(e));
    }
}

std::string in_toml_quotes(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (c == '\n')
            out += "\\n";
        else
            out += c;
    }
    return out + '"';
}

std::string written(const std::string& key, const std::string& value) {
    const std::string last = key.substr(key.rfind('.') + 1);
    if (last == "at" || last == "wait" || last == "longest") return in_toml_quotes(value);
    if (value == "true" || value == "false" || (!value.empty() && (value[0] == '[' || value[0] == '{'))) return value;
    double number = 0;
    const auto read = std::from_chars(value.data(), value.data() + value.size(), number);
    const bool is_number = read.ec == std::errc{} && read.ptr == value.data() + value.size() && std::isfinite(number);
    return is_number ? value : in_toml_quotes(value);
}

std::string unquoted(std::string_view value) {
    if (value.size() < 2 || (value[0] != '"' && value[0] != '\'')) return std::string(value);
    const bool escapes = value[0] == '"';
    std::string out;
    for (std::size_t k = 1; k + 1 < value.size(); ++k) {
        if (escapes && value[k] == '\\' && k + 2 < value.size()) ++k;
        out += value[k];
    }
    return out;
}

std::string clock_as_written(double seconds) {
    const long s = std::lround(std::max(0.0, seconds));
    return fmt::format("{}:{:02}", s / 60, s % 60);
}

std::string key_as_written(const std::string& name) {
    const bool bare = !name.empty() && name.find_first_not_of(bare_letters) == std::string::npos;
    return bare ? name : in_toml_quotes(name);
}

} // namespace tidemark::viewer
