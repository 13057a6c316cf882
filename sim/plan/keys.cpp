#include "plan/clock.h"
#include "plan/keys_detail.h"

#include <cmath>
#include <fmt/format.h>

namespace tidemark::plan {

std::string Range::text() const {
    const std::string unit_text = unit.empty() ? "" : " " + unit;
    if (above_lo)
        return fmt::format("more than {}, up to {}{}", lo, hi, unit_text);
    return fmt::format("{} to {}{}", lo, hi, unit_text);
}

bool Range::holds(double value) const { return (above_lo ? value > lo : value >= lo) && value <= hi; }

Keys::Keys(const Value& table, std::string who, Problems& problems)
    : table_(&table), who_(std::move(who)), problems_(&problems) {}

const Value* Keys::find(const std::string& key) {
    if (std::find(asked_.begin(), asked_.end(), key) == asked_.end())
        asked_.push_back(key);
    for (const Entry& entry : table_->table)
        if (entry.key == key)
            return &entry.value;
    return nullptr;
}

int Keys::line(const std::string& key) const {
    for (const Entry& entry : table_->table)
        if (entry.key == key)
            return entry.line;
    return table_->line;
}

void Keys::refuse(const std::string& key, const std::string& what, const std::string& allowed) {
    problems_->add(line(key), said(what), allowed);
}

void Keys::refuse_kind(const std::string& key, const Value& value, const std::string& allowed) {
    refuse(key, fmt::format("{} is {}", key, described(value)), allowed);
}

void Keys::refuse_missing(const std::string& key, const std::string& allowed) {
    refuse(key, key + " is missing", allowed);
}

const Value* Keys::required(const std::string& key, bool needed, const std::string& allowed) {
    const Value* value = find(key);
    if (value == nullptr && needed)
        refuse_missing(key, allowed);
    return value;
}

double Keys::number(const std::string& key, const Range& range, std::optional<double> otherwise) {
    const double fallback = otherwise.value_or(range.hi);
    const Value* value = required(key, !otherwise, range.text());
    if (value == nullptr)
        return fallback;
    if (value->kind != Value::Kind::number || !range.holds(value->number)) {
        const bool number = value->kind == Value::Kind::number;
        refuse_kind(key, *value, number ? range.text() : "a number, " + range.text());
        return fallback;
    }
    return value->number;
}

std::int64_t
Keys::whole(const std::string& key, std::int64_t lo, std::int64_t hi, std::optional<std::int64_t> otherwise) {
    const std::string allowed = fmt::format("a whole number, {} to {}", lo, hi);
    const Value* value = required(key, !otherwise, allowed);
    if (value == nullptr)
        return otherwise.value_or(lo);
    if (value->kind == Value::Kind::number && value->whole && value->integer >= lo && value->integer <= hi)
        return value->integer;
    refuse_kind(key, *value, allowed);
    return otherwise.value_or(lo);
}

bool Keys::refuse_controls(const std::string& key, const std::string& text) {
    const bool control = control_at(text) != std::string::npos;
    if (control)
        refuse(key, fmt::format("{} {} holds a line break or control character", key, in_quotes(text)));
    return control;
}

std::string Keys::text(const std::string& key, std::optional<std::string> otherwise, const std::string& allowed) {
    const Value* value = required(key, !otherwise, allowed);
    if (value == nullptr)
        return otherwise.value_or("");
    if (value->kind != Value::Kind::text)
        refuse_kind(key, *value, allowed);
    else if (value->text.empty())
        refuse(key, key + " is empty", allowed);
    else if (!refuse_controls(key, value->text))
        return value->text;
    return otherwise.value_or("");
}

bool Keys::truth(const std::string& key, bool otherwise) {
    const Value* value = find(key);
    if (value == nullptr)
        return otherwise;
    if (value->kind != Value::Kind::truth) {
        refuse_kind(key, *value, "true or false");
        return otherwise;
    }
    return value->truth;
}

double Keys::clock(const std::string& key, std::optional<double> otherwise) {
    const std::string allowed = "minutes:seconds in quotes, such as \"7:40\", up to 48 hours, \"2880:00\"";
    const Value* value = required(key, !otherwise, allowed);
    if (value == nullptr)
        return otherwise.value_or(0);
    const std::optional<double> seconds =
        value->kind == Value::Kind::text ? seconds_from_clock(value->text) : std::nullopt;
    const std::string nearest = value->kind == Value::Kind::text ? nearest_clock(value->text) : "";
    if (!seconds && !nearest.empty())
        refuse(key, fmt::format("{} {} is no time; did you mean \"{}\"?", key, in_quotes(value->text), nearest), "");
    else if (!seconds)
        refuse_kind(key, *value, allowed);
    return seconds.value_or(otherwise.value_or(0));
}

std::optional<std::pair<double, double>>
Keys::pair(const std::string& key, const Range& first, const Range& second, const std::string& meaning) {
    const Value* value = find(key);
    if (value == nullptr)
        return {};
    const auto is_number = [](const Value& v) { return v.kind == Value::Kind::number; };
    if (value->kind != Value::Kind::list || !std::all_of(value->list.begin(), value->list.end(), is_number)) {
        refuse_kind(key, *value, meaning);
    } else if (value->list.size() != 2) {
        refuse(key, fmt::format("{} holds {} numbers", key, value->list.size()),
               meaning + "; a number's decimals come after a point");
    } else {
        const double x = value->list[0].number, y = value->list[1].number;
        if (first.holds(x) && second.holds(y))
            return std::pair{x, y};
        refuse(key, fmt::format("{} is [{}, {}]", key, x, y), meaning);
    }
    return {};
}

const Value* Keys::table(const std::string& key) {
    const Value* value = find(key);
    if (value == nullptr || value->kind == Value::Kind::table)
        return value;
    refuse_kind(key, *value, fmt::format("a table, [{}]", key));
    return nullptr;
}

const std::vector<Value>* Keys::tables(const std::string& key) {
    const Value* value = find(key);
    if (value == nullptr)
        return nullptr;
    if (value->tables_only)
        return &value->list;
    const std::string allowed = fmt::format("[[{0}]], once for each {0}", key);
    if (value->kind == Value::Kind::table)
        refuse(key, fmt::format("[{}] in single brackets", key), allowed);
    else
        refuse_kind(key, *value, allowed);
    return nullptr;
}

void Keys::finish() {
    for (const Entry& entry : table_->table) {
        if (std::find(asked_.begin(), asked_.end(), entry.key) != asked_.end())
            continue;
        const Hint h = hint(entry.key, asked_, "no key at all");
        problems_->add(entry.line, said("unknown key " + in_quotes(entry.key) + h.nearest), h.allowed);
    }
}

} // namespace tidemark::plan
