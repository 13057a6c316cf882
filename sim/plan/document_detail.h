/// A plan file as it was written: values with their lines and no meaning yet. The only place that knows the TOML
/// library is document.cpp.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace tidemark::plan {

struct Entry;

struct Value {
    enum class Kind { text, number, truth, list, table, date_or_time };
    Kind kind = Kind::table;
    int line = 1;
    std::string text;
    double number = 0;
    bool whole = false; ///< the number was written without point or exponent: `integer` is it
    std::int64_t integer = 0;
    bool truth = false;
    bool tables_only = false; ///< a list written as [[name]] or as a list of tables
    std::vector<Value> list;
    std::vector<Entry> table; ///< in the order of the file
};

struct Entry {
    std::string key;
    int line = 1;
    Value value;
};

/// For messages: `the text "abc"`, `3`, `true`, `a list`, `a table`, `a date or time`.
std::string described(const Value&);

/// Errors: BadInput with one problem, the first mistake in the file's grammar; `file` is what it is called there.
Value parse_document(std::string_view text, const std::string& file);

/// Refuses, before the TOML library sees the text, what that library doesn't survive: letters beyond ASCII outside
/// quotes and comments, and keys with very many dots (it recurses). Errors: BadInput.
void check_characters(std::string_view text, const std::string& file);

/// The library's complaint about line `line` of `text` in words a painter can act on. Always BadInput.
[[noreturn]] void
throw_syntax_error(std::string_view text, const std::string& file, int line, const std::string& complaint);

} // namespace tidemark::plan
