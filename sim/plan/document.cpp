// The library is compiled into this file alone, whatever way the package was built: its assertions stop a debug build
// on some wrong input ("[=]") for which it has a proper error as well.
#undef TOML_HEADER_ONLY
#undef TOML_SHARED_LIB
#define TOML_HEADER_ONLY 1
#define TOML_ASSERT(...) static_cast<void>(0)
#define TOML_EXCEPTIONS 0
#define TOML_ENABLE_FORMATTERS 0
#include <toml++/toml.h>
//
#include "grid/problem.h"
#include "plan/document_detail.h"
#include "plan/problems_detail.h"
#include "plan/problems_detail.h"

#include <algorithm>
#include <fmt/format.h>

namespace tidemark::plan {

namespace {

/// An implicit table has no place of its own; it gets its parent's.
int line_of(const toml::source_region& source, int parent_line) {
    return source.begin.line > 0 ? static_cast<int>(source.begin.line) : parent_line;
}

Value converted(const toml::node& node, int parent_line, const std::string& file);

void add_entries(Value& value, const toml::table& table, const std::string& file) {
    std::vector<std::pair<const toml::key*, const toml::node*>> entries;
    for (auto&& [key, node] : table)
        entries.push_back({&key, &node});
    std::sort(entries.begin(), entries.end(), [](const auto& a, const auto& b) {
        const toml::source_position &p = a.first->source().begin, &q = b.first->source().begin;
        return p.line != q.line ? p.line < q.line : p.column < q.column;
    });
    for (const auto& [key, node] : entries) {
        const int line = line_of(key->source(), value.line);
        if (control_at(key->str()) != std::string_view::npos)
            throw grid::BadInput(fmt::format("{}:{}", file, line), fmt::format("the name {} holds a line break or control character", in_quotes(std::string(key->str()))));
        value.table.push_back({std::string(key->str()), line, converted(*node, line, file)});
    }
}

Value converted(const toml::node& node, int parent_line, const std::string& file) {
    using Kind = Value::Kind;
    Value value;
    value.line = line_of(node.source(), parent_line);
    if (const auto* table = node.as_table()) {
        add_entries(value, *table, file);
    } else if (const auto* list = node.as_array()) {
        value.kind = Kind::list;
        value.tables_only = !list->empty() && list->is_homogeneous<toml::table>();
        for (const toml::node& item : *list)
            value.list.push_back(converted(item, value.line, file));
    } else if (const auto* text = node.as_string()) {
        value.kind = Kind::text;
        value.text = text->get();
    } else if (const auto* truth = node.as_boolean()) {
        value.kind = Kind::truth;
        value.truth = truth->get();
    } else if (const auto* integer = node.as_integer()) {
        value.kind = Kind::number;
        value.whole = true;
        value.integer = integer->get();
        value.number = static_cast<double>(value.integer);
    } else if (const auto* number = node.as_floating_point()) {
        value.kind = Kind::number;
        value.number = number->get();
    } else {
        value.kind = Kind::date_or_time;
    }
    return value;
}

} // namespace

std::string described(const Value& value) {
    switch (value.kind) {
    case Value::Kind::text:
        return "the text " + in_quotes(value.text);
    case Value::Kind::number:
        return value.whole ? fmt::format("{}", value.integer) : fmt::format("{}", value.number);
    case Value::Kind::truth:
        return value.truth ? "true" : "false";
    case Value::Kind::list:
        return "a list";
    case Value::Kind::table:
        return "a table";
    case Value::Kind::date_or_time:
        return "a date or time";
    }
    return {};
}

Value parse_document(std::string_view text, const std::string& file) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF")
        text.remove_prefix(3); // byte-order mark
    check_characters(text, file);
    const toml::parse_result parsed = toml::parse(text);
    if (!parsed) {
        const toml::parse_error& error = parsed.error();
        throw_syntax_error(text, file, line_of(error.source(), 1), std::string(error.description()));
    }
    return converted(parsed.table(), 1, file);
}

} // namespace tidemark::plan
