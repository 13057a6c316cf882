#include "viewer/studio/edit_text_detail.h"

#include "viewer/studio/plan_text_detail.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tidemark::viewer {

namespace {

[[noreturn]] void refuse(const plan::Plan& plan, const std::string& what, const std::string& allowed) {
    throw grid::BadInput(plan.file.string(), what, allowed);
}

std::vector<TextTable> steps_of(const std::string& text) {
    std::vector<TextTable> steps;
    for (TextTable& t : tables_of(text))
        if (t.of_list && t.name == "step") steps.push_back(std::move(t));
    return steps;
}

TextTable step_table(const std::string& text, const plan::Plan& plan, int step) {
    const auto steps = steps_of(text);
    if (steps.size() != plan.steps.size() || step < 0 || step >= static_cast<int>(steps.size()))
        refuse(plan, "its steps are written in a way that can't be changed here", "[[step]] for every act, or an editor");
    return steps[static_cast<std::size_t>(step)];
}

TextTable table_of(const std::string& text, const plan::Plan& plan, const std::string& where) {
    if (const int step = plan.step_index(where); step >= 0) return step_table(text, plan, step);
    for (TextTable& t : tables_of(text))
        if (!t.of_list && t.name == where) return t;
    refuse(plan, fmt::format("there is no [{}] to be changed", where), "a step's name, sheet, mix.NAME, area.NAME");
}

std::string spliced(const std::string& text, std::size_t begin, std::size_t end, const std::string& by) {
    return fmt::format("{}{}{}", std::string_view(text).substr(0, begin), by, std::string_view(text).substr(end));
}

/// A whole line; in front of a text that does not end with one.
std::string line_at(const std::string& text, std::size_t at, const std::string& line) {
    const bool open = at > 0 && text[at - 1] != '\n';
    return spliced(text, at, at, fmt::format("{}{}\n", open ? "\n" : "", line));
}

std::size_t line_begin(const std::string& text, std::size_t at) {
    const std::size_t before = at == 0 ? std::string::npos : text.rfind('\n', at - 1);
    return before == std::string::npos ? 0 : before + 1;
}

std::string changed(const std::string& text, const TextTable& table, const std::string& key, const std::string& value) {
    if (const std::size_t dot = key.find('.'); dot != std::string::npos) {
        if (const TextEntry* outer = table.entry(key.substr(0, dot)))
            for (const TextEntry& e : inline_entries(text, outer->value_begin, outer->value_end))
                if (e.key == key.substr(dot + 1)) return spliced(text, e.value_begin, e.value_end, written(key, value));
        if (const TextEntry* outer = table.entry(key.substr(0, dot)); outer && text[outer->value_end - 1] == '}')
            return spliced(text, outer->value_end - 1, outer->value_end, fmt::format(", {} = {} }}", key.substr(dot + 1), written(key, value)));
    }
    const TextEntry* e = table.entry(key);
    if (e && value.empty()) return spliced(text, line_begin(text, e->begin), e->line_end, "");
    if (e) return spliced(text, e->value_begin, e->value_end, written(key, value));
    if (value.empty()) return text;
    return line_at(text, table.end(), fmt::format("{} = {}", key_as_written(key), written(key, value)));
}

/// One key after the other: each change moves what stands behind it.
std::string step_changed(std::string text, const plan::Plan& plan, int step, const std::vector<std::pair<std::string, std::string>>& values) {
    for (const auto& [key, value] : values) text = changed(text, step_table(text, plan, step), key, value);
    return text;
}

std::string number(double v) { return fmt::format("{:g}", v); }

} // namespace

std::string with_value(const std::string& text, const plan::Plan& plan, const std::string& where, const std::string& key, const std::string& value) {
    return changed(text, table_of(text, plan, where), key, value);
}

std::optional<std::string> value_in(const std::string& text, const plan::Plan& plan, const std::string& where, const std::string& key) {
    const TextTable table = table_of(text, plan, where);
    const auto of = [&](const TextEntry& e) { return unquoted(std::string_view(text).substr(e.value_begin, e.value_end - e.value_begin)); };
    if (const TextEntry* e = table.entry(key)) return of(*e);
    const std::size_t dot = key.find('.');
    if (const TextEntry* outer = table.entry(key.substr(0, dot)); outer && dot != std::string::npos)
        for (const TextEntry& e : inline_entries(text, outer->value_begin, outer->value_end))
            if (e.key == key.substr(dot + 1)) return of(e);
    return std::nullopt;
}

std::string with_act_moved(const std::string& text, const plan::Plan& plan, int step, double to_s, const std::vector<ActSpan>& played) {
    const TextTable table = step_table(text, plan, step);
    const plan::Step& s = plan.steps[static_cast<std::size_t>(step)];
    const auto* after = std::get_if<plan::AfterStep>(&s.start);
    const int before = after ? after->step : step - 1;
    if (std::holds_alternative<plan::AtTime>(s.start) || before < 0)
        return step_changed(text, plan, step, {{"after", ""}, {"wait", ""}, {"when", ""}, {"at", clock_as_written(to_s)}});
    const auto end = std::find_if(played.begin(), played.end(), [&](const ActSpan& a) { return a.step == before && a.ended; });
    const std::string& name = plan.steps[static_cast<std::size_t>(before)].name;
    if (end == played.end()) refuse(plan, fmt::format("\"{}\" has not been played yet, and \"{}\" follows it: it can be moved a moment later", name, s.name), "");
    const std::string wait = clock_as_written(to_s - end->end_s);
    std::vector<std::pair<std::string, std::string>> values{{"when", ""}};
    if (!table.entry("after")) values.push_back({"after", name});
    values.push_back({"wait", wait});
    return step_changed(text, plan, step, values);
}

std::string with_act(const std::string& text, const plan::Plan& plan, const NewAct& act, int after_step) {
    std::string made = "[[step]]\n";
    const auto put = [&](const std::string& key, const std::string& value) {
        if (!value.empty()) made += fmt::format("{} = {}\n", key, written(key, value));
    };
    const auto put_number = [&](const std::string& key, const auto& value) {
        if (value) put(key, number(static_cast<double>(*value)));
    };
    if (!act.name.empty()) made += fmt::format("name = {}\n", in_toml_quotes(act.name)); // "12" is a name too
    put("do", act.verb);
    if (act.at_s) put("at", clock_as_written(*act.at_s));
    if (!act.at_s && act.wait_s && after_step >= 0) {
        made += fmt::format("after = {}\n", in_toml_quotes(plan.steps[static_cast<std::size_t>(after_step)].name));
        put("wait", clock_as_written(*act.wait_s));
    }
    if (!act.when_is.empty())
        made += fmt::format("when = {{ area = {}, is = {} }}\n", in_toml_quotes(act.when_area.empty() ? "sheet" : act.when_area), in_toml_quotes(act.when_is));
    if (!act.area.empty()) made += fmt::format("area = {}\n", in_toml_quotes(act.area));
    if (!act.mix.empty()) made += fmt::format("mix = {}\n", in_toml_quotes(act.mix));
    put_number("film_um", act.film_um), put_number("water_g_m2", act.water_g_m2), put_number("drops", act.drops);
    put("tool", act.tool), put_number("angle_deg", act.angle_deg), put("until", act.until);
    put_number("pace_cm2_s", act.pace_cm2_s);
    for (const auto& [key, value] : act.more) put(key, value);
    if (plan.steps.empty()) return fmt::format("{}{}{}", text, text.empty() || text.back() == '\n' ? "\n" : "\n\n", made);
    if (after_step < 0) {
        const std::size_t at = step_table(text, plan, 0).begin;
        return spliced(text, at, at, fmt::format("{}\n", made));
    }
    return line_at(text, step_table(text, plan, after_step).end(), fmt::format("\n{}", made.substr(0, made.size() - 1)));
}

std::string with_addition(const std::string& text, const plan::Plan& plan, const Addition& a) {
    std::string t = text;
    if (a.area) t = with_area(t, *a.area);
    if (a.mix) t = with_mix(t, a.mix->name, a.mix->pigment_pct);
    return with_act(t, plan, a.act, a.after_step);
}

std::string without_act(const std::string& text, const plan::Plan& plan, int step) {
    step_table(text, plan, step); // refuses
    const auto* after = std::get_if<plan::AfterStep>(&plan.steps[static_cast<std::size_t>(step)].start);
    const int before = after ? after->step : step - 1;
    std::string out = text;
    for (int k = 0; k < static_cast<int>(plan.steps.size()); ++k) {
        const auto* waits = std::get_if<plan::AfterStep>(&plan.steps[static_cast<std::size_t>(k)].start);
        if (k == step || !waits || waits->step != step) continue;
        if (before >= 0)
            out = step_changed(out, plan, k, {{"after", plan.steps[static_cast<std::size_t>(before)].name}});
        else
            out = step_changed(out, plan, k, {{"after", ""}, {"wait", ""}});
    }
    const TextTable table = step_table(out, plan, step);
    std::size_t end = table.end();
    if (end < out.size() && out[end] == '\n') ++end; // the empty line behind it
    return spliced(out, table.begin, end, "");
}

namespace {

/// A table of a family ("mix.", "area.") goes behind the last of its kind, else in front of the acts, else to the end.
std::string with_table(const std::string& text, const std::string& family, const std::string& made) {
    const auto tables = tables_of(text);
    for (auto t = tables.rbegin(); t != tables.rend(); ++t)
        if (t->name.rfind(family, 0) == 0) return line_at(text, t->end(), made);
    for (const TextTable& t : tables)
        if (t.of_list) return line_at(text, t.begin, fmt::format("{}\n", made));
    return line_at(text, text.size(), fmt::format("\n{}", made));
}

} // namespace

std::string with_area(const std::string& text, const NewArea& area) {
    return with_table(text, "area.", fmt::format("[area.{}]\nmask = {}", key_as_written(area.name), in_toml_quotes(area.mask)));
}

std::string with_mix(const std::string& text, const std::string& name, const std::vector<std::pair<std::string, double>>& pigment_pct) {
    std::string made = fmt::format("[mix.{}]", key_as_written(name));
    for (const auto& [pigment, pct] : pigment_pct) made += fmt::format("\n{} = {}", key_as_written(pigment), number(pct));
    return with_table(text, "mix.", made);
}

std::string with_want(const std::string& text, const std::string& first, const std::string& second, const std::string& edge) {
    return line_at(text, text.size(), fmt::format("\n[[want]]\nbetween = [{}, {}]\nedge = {}", in_toml_quotes(first), in_toml_quotes(second), in_toml_quotes(edge)));
}

std::vector<std::string> files_named(const std::string& text) {
    std::vector<std::string> files;
    for (const TextTable& t : tables_of(text))
        for (const TextEntry& e : t.entries)
            if (e.key == "mask" || e.key == "order" || e.key == "picture") {
                const std::string file = unquoted(std::string_view(text).substr(e.value_begin, e.value_end - e.value_begin));
                if (std::find(files.begin(), files.end(), file) == files.end()) files.push_back(file);
            }
    return files;
}

} // namespace tidemark::viewer
