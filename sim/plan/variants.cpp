#include "plan/variants.h"

#include "plan/reading_detail.h"

#include <charconv>
#include <fmt/format.h>

namespace tidemark::plan {

namespace {

const std::string of_mix = "mix.";

[[noreturn]] void refuse(const Change& c, const std::string& what, const std::string& allowed) {
    throw grid::BadInput(c.where, what, allowed);
}

Value text_value(const std::string& text, int line) {
    Value value;
    value.kind = Value::Kind::text;
    value.line = line;
    value.text = text;
    return value;
}

/// A number if it is one, true or false, else text. Times are text, so that "5" is told what was meant.
Value value_of(const Change& c, int line) {
    Value value = text_value(c.value, line);
    if (c.key == "wait" || c.key == "at" || c.key == "longest")
        return value;
    if (c.value == "true" || c.value == "false") {
        value.kind = Value::Kind::truth;
        value.truth = c.value == "true";
        return value;
    }
    const char *begin = c.value.data(), *end = begin + c.value.size();
    const auto read = std::from_chars(begin, end, value.number);
    if (read.ec != std::errc{} || read.ptr != end || begin == end)
        return value;
    value.kind = Value::Kind::number;
    const auto whole = std::from_chars(begin, end, value.integer);
    value.whole = whole.ec == std::errc{} && whole.ptr == end;
    return value;
}

Value* entry(Value& table, const std::string& key) {
    for (Entry& e : table.table)
        if (e.key == key)
            return &e.value;
    return nullptr;
}

void put(Value& table, const std::string& key, Value value) {
    const int line = value.line;
    for (Entry& e : table.table)
        if (e.key == key) {
            e.line = line;
            e.value = std::move(value);
            return;
        }
    table.table.push_back({key, line, std::move(value)});
}

void remove(Value& table, const std::string& key) {
    std::erase_if(table.table, [&](const Entry& e) { return e.key == key; });
}

void change_mix(Value& document, const Change& c, int line) {
    Value* mixes = entry(document, "mix");
    const std::string name = c.step.substr(of_mix.size());
    Value* mix = mixes != nullptr ? entry(*mixes, name) : nullptr;
    if (mix == nullptr) {
        std::vector<std::string> names;
        for (std::size_t k = 0; mixes != nullptr && k < mixes->table.size(); ++k)
            names.push_back(mixes->table[k].key);
        const Hint h = hint(name, names, "a plan with mixes");
        refuse(c, "unknown mix " + in_quotes(name) + h.nearest, h.allowed);
    }
    if (c.key != "gum_pct" && entry(*mix, c.key) == nullptr) {
        std::vector<std::string> keys;
        for (const Entry& e : mix->table)
            keys.push_back(e.key);
        refuse(c, fmt::format("mix {} has no {}", in_quotes(name), in_quotes(c.key)), fmt::format("{}", fmt::join(keys, ", ")));
    }
    put(*mix, c.key, value_of(c, line));
}

void change_sheet(Value& document, const Change& c, int line) {
    if (c.key != "room" && c.key != "paper")
        refuse(c, fmt::format("{} of the sheet can't be varied", in_quotes(c.key)), "room, paper");
    put(*entry(document, "sheet"), c.key, text_value(c.value, line));
}

/// The clock in the place of what the step waited for.
void begin_by_clock(Value& table, const Plan& base, int step, const Change& c, int line) {
    if (c.key == "at") {
        for (const char* key : {"after", "wait", "when"})
            remove(table, key);
    } else if (entry(table, "at") != nullptr) {
        refuse(c, fmt::format("step {} begins at a time of its own and waits for no other", in_quotes(c.step)), "at");
    } else if (entry(table, "after") == nullptr && step > 0) {
        remove(table, "when");
        put(table, "after", text_value(base.steps[step - 1].name, line));
    }
    put(table, c.key, text_value(c.value, line));
}

void change_step(Value& document, const Plan& base, const Change& c, int line) {
    const int step = base.step_index(c.step);
    Value& table = entry(document, "step")->list[step];
    for (const char* fixed : {"do", "name", "area", "mask", "after", "when", "order", "along"})
        if (c.key == fixed)
            refuse(c, fmt::format("{} of a step can't be varied", fixed), "what holds a number, a time or a word, such as wait, at, film_um");
    if (c.key == "wait" || c.key == "at")
        return begin_by_clock(table, base, step, c, line);
    const Act& act = base.steps[step].act;
    const bool own = std::holds_alternative<Dry>(act) || (c.key == "share" && std::holds_alternative<Drybrush>(act));
    Value* when = entry(table, "when");
    const bool of_wait = c.key == "is" || c.key == "longest" || c.key == "share";
    put(when != nullptr && of_wait && !own ? *when : table, c.key, value_of(c, line));
}

} // namespace

Variants::Variants(const std::filesystem::path& file, const materials::Presets& presets, FilesFrom from)
    : presets_(presets), from_(from), document_(std::make_shared<const Value>(document_of(file))) {
    Reading reading{file, folder_of(file), presets, Problems(file.string()), {}, {}, {}, nullptr, from};
    base_ = read_document(reading, *document_);
}

std::string Variants::whole_name(const std::string& step, const std::string& where) const {
    if (step == "sheet" || step.rfind(of_mix, 0) == 0 || base_.step_index(step) >= 0)
        return step;
    std::vector<std::string> names, begun;
    for (const Step& s : base_.steps) {
        names.push_back(s.name);
        if (!step.empty() && s.name.rfind(step + " ", 0) == 0)
            begun.push_back(s.name);
    }
    if (begun.size() == 1)
        return begun[0];
    const Hint h = begun.empty() ? hint(step, names, "") : Hint{"", fmt::format("{}", fmt::join(begun, ", "))};
    throw grid::BadInput(where, (begun.empty() ? "unknown step " : "more than one step begins with ") + in_quotes(step) + h.nearest,
                         h.allowed);
}

Plan Variants::with(const std::vector<Change>& changes) const {
    Value document = *document_;
    Reading reading{base_.file, folder_of(base_.file), presets_, Problems(base_.file.string()), {}, {}, {}, &base_, from_};
    for (const Change& c : changes) {
        const int line = reading.problems.line_called(c.where);
        if (c.step == "sheet")
            change_sheet(document, c, line);
        else if (c.step.rfind(of_mix, 0) == 0)
            change_mix(document, c, line);
        else
            change_step(document, base_, c, line);
    }
    return read_document(reading, document);
}

Values values_of(Plan p) { return {std::move(p.paper), std::move(p.room), std::move(p.mixes), std::move(p.steps)}; }

Plan plan_of(Plan base, const Values& v) {
    base.paper = v.paper, base.room = v.room, base.mixes = v.mixes, base.steps = v.steps;
    return base;
}

} // namespace tidemark::plan
