// The slip as it is seen.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "colour/lab.h"
#include "report/plan_cautions.h"
#include "sheet/look.h"
#include "viewer/studio/looks.h"
#include "viewer/window/act_form.h"
#include "viewer/window/strip.h"

namespace tidemark::viewer {

namespace {

constexpr std::size_t most_pigments = 3; ///< of a mix that is still a colour (common practice)
constexpr double most_pct = 12, most_body_pct = 40;
// As long as what may be told: room for it is kept.
constexpr const char *longest_left = "dries to L* 88", *longest_right = "the reference 88",
                     *longest_words = "dries about 88 L* lighter than the reference: no strength of this mix is as light over what lies below";

/// "PY43 yellow ochre": what stands in brackets is for tables.
std::string name_shown(const materials::Pigment& p) {
    const std::string name = p.name.substr(0, p.name.find(" ("));
    return p.id.substr(0, p.id.find('-')) + " " + name;
}

/// Of a wash of 2 % by weight, 0.1 mm deep, on this paper.
Colour dried_colour(const materials::Pigment& p, const materials::Paper& paper) {
    const colour::Srgb8 c = colour::srgb_from(colour::xyz_from(sheet::layer_seen(paper, {{&p, 2e-3}}, sheet::LookAs::dried)));
    return rgb(static_cast<unsigned>(c.r) << 16 | static_cast<unsigned>(c.g) << 8 | c.b);
}

float heading(Ui& ui, const char* text, float x, float y) {
    write(ui, x, y, ui.theme.quiet, text);
    return std::round(1.5F * ui.em);
}

} // namespace

float ActForm::draw(Ui& ui, float x, float y, float width, const FormGround& g) {
    const float top = y, em = ui.em;
    const plan::Plan* plan = g.ground.plan.get();
    if (plan != nullptr && after_ >= static_cast<int>(plan->steps.size()))
        after_ = static_cast<int>(plan->steps.size()) - 1;
    write(ui, x, y, ui.theme.ink, "What the hand does", ui.strong);
    y += std::round(1.7F * em);
    std::vector<std::string> labels;
    for (const TradeVerb& v : trade_verbs())
        labels.emplace_back(v.label);
    if (const int k = choose_word(ui, "hand", labels, static_cast<int>(verb_), x, y, width); k >= 0) {
        verb_ = static_cast<std::size_t>(k);
        values_.clear();
        water_only_ = verb().lays == Lays::mix_or_water;
    }
    y += 0.4F * em;
    if (verb().has_place)
        draw_place(ui, x, y, width, g);
    if (verb().lays != Lays::nothing)
        draw_mix(ui, x, y, width, g);
    draw_swatches(ui, x, y, width);
    draw_values(ui, x, y, width);
    if (plan != nullptr)
        draw_when(ui, x, y, width, g);
    draw_cautions(ui, x, y, width, g);
    try_it(g);
    return y - top;
}

void ActForm::draw_place(Ui& ui, float x, float& y, float width, const FormGround& g) {
    y += heading(ui, "where", x, y);
    if (!g.areas_by_hand) {
        std::vector<std::string> labels{"the whole sheet"};
        labels.insert(labels.end(), g.areas.begin(), g.areas.end());
        const auto at = std::find(labels.begin() + 1, labels.end(), area_);
        const int on = area_.empty() ? 0 : at == labels.end() ? -1 : static_cast<int>(at - labels.begin());
        if (const int k = choose_word(ui, "where", labels, on, x, y, width); k >= 0)
            choose_area(k == 0 ? "" : labels[static_cast<std::size_t>(k)]);
    } else {
        write_within(ui, x, y, width, ui.theme.ink, area_.empty() ? "the whole sheet" : area_, ui.strong);
        y += std::round(1.5F * ui.em);
    }
    if (!g.where_hint.empty())
        y += write_wrapped(ui, x, y, width, ui.theme.quiet, g.where_hint, ui.small) + 0.2F * ui.em;
    y += 0.5F * ui.em;
}

void ActForm::draw_mix(Ui& ui, float x, float& y, float width, const FormGround& g) {
    y += heading(ui, "with", x, y);
    std::vector<std::string> labels, names;
    if (verb().lays == Lays::mix_or_water)
        labels.emplace_back("clear water"), names.emplace_back();
    if (g.ground.plan)
        for (const plan::Mix& m : g.ground.plan->mixes)
            if (!m.pigments.empty())
                labels.push_back(m.name), names.push_back(m.name);
    labels.emplace_back("a new mix"), names.emplace_back();
    const bool water_first = verb().lays == Lays::mix_or_water;
    int on = static_cast<int>(labels.size()) - 1;
    if (water_first && water_only_)
        on = 0;
    else if (!mix_.empty())
        on = static_cast<int>(std::find(names.begin(), names.end(), mix_) - names.begin());
    if (const int k = choose_word(ui, "with", labels, on, x, y, width); k >= 0) {
        mix_ = names[static_cast<std::size_t>(k)];
        water_only_ = water_first && k == 0;
    }
    if (is_new_mix())
        draw_new_mix(ui, x, y, width);
    y += 0.4F * ui.em;
}

void ActForm::draw_new_mix(Ui& ui, float x, float& y, float width) {
    const float em = ui.em, each = slider_height(ui) + 0.2F * em;
    const double most = verb().verb == std::string("body") ? most_body_pct : most_pct;
    // While they are chosen there is room for all that there may be: the rows below stay where they are.
    const float below = y + each * static_cast<float>(choosing_pigments_ ? most_pigments : pigments_.size());
    for (auto& [id, pct] : pigments_) {
        const materials::Pigment* p = presets_.pigment(id);
        bool done = false;
        slider(ui, p != nullptr ? name_shown(*p) : id, fmt::format("{:.2g} %", pct), x, y, width, pct, 0.1, most, 0.1, done);
        pct = std::round(100 * pct) / 100;
        y += each;
    }
    y = below;
    float wx = x - std::round(0.45F * em);
    if (word(ui, choosing_pigments_ ? "done choosing" : "other pigments …", wx, y, false, nullptr, "pigments"))
        choosing_pigments_ = !choosing_pigments_;
    y += std::round(1.7F * em);
    if (!choosing_pigments_)
        return;
    y += write_wrapped(ui, x, y, width, ui.theme.quiet, "One, two or three; press again to leave one out. Beside each how a wash of 2 % dries.", ui.small) + 0.3F * em;
    for (const materials::Pigment& p : presets_.pigments)
        draw_pigment_row(ui, p, x, y, width);
    y += std::round(0.3F * em);
}

void ActForm::draw_pigment_row(Ui& ui, const materials::Pigment& p, float x, float& y, float width) {
    const float em = ui.em, tall = std::round(1.6F * em), chip = std::round(2.2F * em);
    const Rect row{x - 0.4F * em, y, x + width + 0.4F * em, y + tall};
    y += tall;
    const Press pressed = press(ui, "pigment: " + p.id, row);
    const auto in = std::find_if(pigments_.begin(), pigments_.end(), [&](const auto& c) { return c.first == p.id; });
    const bool on = in != pigments_.end();
    if (pressed.hovered)
        fill(ui, row, ui.theme.hover);
    const Rect dab{x, row.y0 + 3, x + chip, row.y1 - 3};
    if (!presets_.papers.empty())
        fill(ui, dab, dried_colour(p, presets_.papers.front())), frame(ui, dab, ui.theme.rule);
    write_within(ui, x + chip + 0.6F * em, row.y0 + 0.25F * em, width - chip - 0.6F * em, on ? ui.theme.accent : ui.theme.ink, name_shown(p), on ? ui.strong : ui.body);
    if (pressed.focused)
        focus_ring(ui, {row.x0 + 3, row.y0 + 3, row.x1 - 3, row.y1 - 3});
    if (!pressed.pressed)
        return;
    if (!on && pigments_.size() < most_pigments)
        pigments_.emplace_back(p.id, 1.0);
    else if (on && pigments_.size() > 1)
        pigments_.erase(in);
}

void ActForm::draw_swatches(Ui& ui, float x, float& y, float width) {
    if (verb().lays == Lays::nothing || water_only_)
        return;
    const float em = ui.em, tall = std::round(2.4F * em);
    const Tried* tried = known(); // of the mix before it would be a wrong number
    const std::optional<DriesTo> dries = tried != nullptr ? tried->dries : std::nullopt;
    const bool compared = dries && std::isfinite(dries->reference_L);
    const auto swatch = [&](float x0, float x1, double lstar) {
        const unsigned grey = grey_of(lstar);
        fill(ui, {x0, y, x1, y + tall}, rgb(grey << 16 | grey << 8 | grey));
    };
    // Two greys without a gap: where the border can't be seen the values are the same.
    const float half = std::round(x + width / 2);
    if (dries) {
        swatch(x, compared ? half : x + width, dries->dry_L);
        if (compared)
            swatch(half, x + width, dries->reference_L);
    }
    frame(ui, {x, y, x + width, y + tall}, ui.theme.rule);
    y += tall + 0.3F * em;
    const bool two_lines = text_width(ui, longest_left, ui.small) + text_width(ui, longest_right, ui.small) + em > width;
    const float words = y + std::round((two_lines ? 2.5F : 1.3F) * em);
    if (dries) {
        write(ui, x, y, ui.theme.ink, fmt::format("dries to L* {:.0f}", dries->dry_L), ui.small);
        if (compared)
            write_right(ui, x + width, two_lines ? y + std::round(1.2F * em) : y, ui.theme.ink, fmt::format("the reference {:.0f}", dries->reference_L), ui.small);
        if (!dries->words.empty())
            write_wrapped(ui, x, words, width, ui.theme.quiet, dries->words, ui.small);
    } else
        write_wrapped(ui, x, y, width, ui.theme.quiet, tried == nullptr ? "reckoning how light it dries …" : "Nothing is foretold of it.", ui.small);
    y = words + wrapped_height(ui, width, longest_words, ui.small) + 0.5F * em;
}

/// Sliders of the act itself; its words: a tool, until when.
void ActForm::draw_values(Ui& ui, float x, float& y, float width) {
    const std::string is = verb().verb;
    if (is == "lift") {
        y += heading(ui, "by", x, y);
        std::vector<std::string> labels;
        int on = 0;
        for (std::size_t k = 0; k < lift_words.size(); ++k) {
            labels.emplace_back(lift_words[k].label);
            if (values_.contains("tool") && values_["tool"] == lift_words[k].tool)
                on = static_cast<int>(k);
        }
        if (const int k = choose_word(ui, "by", labels, on, x, y, width); k >= 0)
            values_["tool"] = lift_words[static_cast<std::size_t>(k)].tool;
        y += 0.3F * ui.em;
    }
    if (is == "dry") {
        y += heading(ui, "until it is", x, y);
        const std::string until = values_.contains("until") ? values_["until"] : "dry";
        std::vector<std::string> labels{"moist", "damp", "dry"};
        const int on = static_cast<int>(std::find(labels.begin(), labels.end(), until) - labels.begin());
        if (const int k = choose_word(ui, "until", labels, on, x, y, width); k >= 0)
            values_["until"] = labels[static_cast<std::size_t>(k)];
        if (const int k = choose_word(ui, "air", {"as it dries by itself", "warm air"}, warm_air_ ? 1 : 0, x, y, width); k >= 0)
            warm_air_ = k == 1;
        y += 0.3F * ui.em;
    }
    // Their room is there before they are known.
    const float end = y + static_cast<float>(verb().sliders) * (slider_height(ui) + 0.2F * ui.em);
    for (const ActValue& v : sliders_[is]) {
        double value = values_.contains(v.key) ? std::strtod(values_[v.key].c_str(), nullptr) : v.value;
        bool done = false;
        const std::string shown = value_text(value, v.decimals) + (v.unit.empty() || v.unit == "°" ? "" : " ") + v.unit;
        if (slider(ui, v.label, shown, x, y, width, value, v.lowest, std::max(v.highest, v.value), v.step, done))
            values_[v.key] = value_text(value, v.decimals);
        y += slider_height(ui) + 0.2F * ui.em;
    }
    y = std::max(y, end);
}

void ActForm::draw_when(Ui& ui, float x, float& y, float width, const FormGround& g) {
    const plan::Plan& plan = *g.ground.plan;
    const float em = ui.em;
    y += heading(ui, "when", x, y);
    const plan::Step* earlier = before(&plan);
    const bool by_clock = begins_ == Begins::by_clock; // then the act before says nothing of when
    const std::string behind = earlier != nullptr ? "after " + earlier->name : "before all others";
    write_within(ui, x, y, width, by_clock ? ui.theme.quiet : ui.theme.ink, by_clock && earlier != nullptr ? "by the clock, listed " + behind : behind, by_clock ? ui.body : ui.strong);
    y += std::round(1.5F * em);
    float wx = x - std::round(0.45F * em);
    if (after_ >= 0 && word(ui, "‹ an act sooner", wx, y))
        --after_;
    if (after_ + 1 < static_cast<int>(plan.steps.size()) && word(ui, "an act later ›", wx, y))
        ++after_;
    y += std::round(1.9F * em);
    if (earlier == nullptr)
        return;
    const std::string stage_of = earlier->area() >= 0 ? plan.areas[static_cast<std::size_t>(earlier->area())].name : "the sheet";
    const std::vector<std::string> labels{"at once, into its open edge", "after a wait", fmt::format("when {} is …", stage_of), "by the clock"};
    const std::vector<std::string> names{"at once", "after a wait", "at a stage", "by the clock"};
    for (std::size_t k = 0; k < labels.size(); ++k) {
        wx = x - std::round(0.45F * em);
        if (word(ui, labels[k], wx, y, static_cast<std::size_t>(begins_) == k, nullptr, "when: " + names[k])) {
            begins_ = static_cast<Begins>(k);
            if (begins_ == Begins::by_clock)
                at_min_ = std::round(2 * g.minute_s / 60) / 2;
        }
        y += std::round(1.6F * em);
    }
    bool done = false;
    if (begins_ == Begins::after_wait) {
        slider(ui, "wait", fmt::format("{:g} min", wait_min_), x, y, width, wait_min_, 0.5, 60, 0.5, done);
        y += slider_height(ui);
    }
    if (begins_ == Begins::by_clock) {
        slider(ui, "minute", clock_text(60 * at_min_), x, y, width, at_min_, 0, std::max(120.0, at_min_), 0.5, done);
        y += slider_height(ui);
    }
    if (begins_ == Begins::at_stage)
        if (const int k = choose_word(ui, "stage", {stage_words.begin(), stage_words.end()}, static_cast<int>(stage_), x, y, width); k >= 0)
            stage_ = static_cast<std::size_t>(k);
    if (const auto* wash = std::get_if<plan::Wash>(&earlier->act); wash != nullptr && verb().verb == std::string("wash")) {
        wx = x - std::round(0.45F * em);
        if (word(ui, "the same wash goes on", wx, y))
            go_on_with(plan, *wash);
        y += std::round(1.6F * em);
    }
    y += 0.4F * em;
}

/// New pigments, and what is breathed in, say what they can do.
void ActForm::draw_cautions(Ui& ui, float x, float& y, float width, const FormGround& g) {
    const bool told = is_new_mix() || verb().verb == std::string("spray") || verb().verb == std::string("reserve");
    if (told && g.cautions != nullptr && tried_ && tried_->plan)
        for (const materials::Caution& c : report::cautions_for(*tried_->plan, *g.cautions)) {
            const auto known = g.ground.plan ? report::cautions_for(*g.ground.plan, *g.cautions) : std::vector<materials::Caution>{};
            if (std::any_of(known.begin(), known.end(), [&](const materials::Caution& k) { return k.what == c.what; }))
                continue; // the plan has it, and says so with its sheet
            y += write_wrapped(ui, x, y, width, ui.theme.warning, c.what + ": " + c.text, ui.small) + 0.4F * ui.em;
        }
}

float ActForm::foot_height(const Ui& ui, float width) const {
    const Tried* tried = known();
    const float wrong = tried == nullptr || tried->problem.empty() ? 0 : wrapped_height(ui, width, tried->problem, ui.small) + 0.4F * ui.em;
    return std::round(5.4F * ui.em + wrong);
}

/// What is wrong grows upwards, over the column: the buttons stay.
void ActForm::draw_foot(Ui& ui, const Rect& r, const plan::Plan* plan) {
    const float em = ui.em, width = r.width();
    fill(ui, r, ui.theme.ground);
    fill(ui, {r.x0, r.y0, r.x1, r.y0 + 1}, ui.theme.rule);
    if (const Tried* tried = known(); tried != nullptr && !tried->problem.empty())
        write_wrapped(ui, r.x0, r.y0 + 0.4F * em, width, ui.theme.warning, tried->problem, ui.small);
    float y = std::round(r.y1 - 4.9F * em), x = r.x0;
    if (button(ui, cut_to(ui, label(), width - 1.6F * em, ui.strong), x, y, true, label()))
        added_ = addition(plan);
    x = r.x0, y += std::round(2.5F * em);
    if (button(ui, "Not now", x, y))
        left_ = true;
    write_within(ui, x + 0.2F * em, y + 0.4F * em, r.x1 - x - 0.2F * em, ui.theme.quiet, begins(plan), ui.small);
}

} // namespace tidemark::viewer
