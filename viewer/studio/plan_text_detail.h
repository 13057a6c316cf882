/// Where everything stands in the text of a plan, so that single values can be changed and all else stays as it was written.
/// It knows TOML's outer form alone: tables, keys, where a value begins and ends. What a value means, and whether the text
/// is a plan at all, says the plan reader. Private to the working half.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tidemark::viewer {

struct TextEntry {
    std::string key;                   ///< without quotes; dotted as written
    std::size_t begin = 0;             ///< of the key
    std::size_t value_begin = 0, value_end = 0;
    std::size_t line_end = 0;          ///< behind the line's end
};

struct TextTable {
    std::string name;                  ///< "step", "mix.glow", "" before the first header; without quotes
    bool of_list = false;              ///< [[name]]
    std::size_t begin = 0;             ///< of the header's line
    std::size_t body = 0;              ///< behind the header's line
    std::vector<TextEntry> entries;
    const TextEntry* entry(std::string_view key) const;
    std::size_t end() const;           ///< behind its last entry's line
};

/// What it can't make out is passed over: then the reader has something to say of it too.
std::vector<TextTable> tables_of(std::string_view text);
/// The entries of an inline table { ... } that begins and ends there.
std::vector<TextEntry> inline_entries(std::string_view text, std::size_t begin, std::size_t end);

/// As a value is written: numbers, truths, lists and tables as they are, everything else in quotes.
std::string written(const std::string& key, const std::string& value);
std::string in_toml_quotes(const std::string&);
std::string unquoted(std::string_view value);
/// "7:40"; whole seconds.
std::string clock_as_written(double seconds);
/// A name in a header or as a key: in quotes when it needs them.
std::string key_as_written(const std::string&);

} // namespace tidemark::viewer
