// What is on the slip, as an act of a plan.
#include "viewer/window/act_form.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "grid/units.h"
#include "viewer/window/strip.h"

namespace tidemark::viewer {

namespace {

constexpr double first_pct = 2; ///< of a pigment that was just chosen: a middling wash

/// `wanted`, or with a number behind it: the first that no act of the plan has.
std::string free_name(const plan::Plan* plan, const std::string& wanted) {
    std::string name = wanted;
    for (int k = 2; plan != nullptr && plan->step_index(name) >= 0; ++k)
        name = fmt::format("{} {}", wanted, k);
    return name;
}

std::string free_mix_name(const plan::Plan* plan, const std::vector<std::pair<std::string, double>>& pigments) {
    std::string wanted;
    for (const auto& p : pigments)
        wanted += (wanted.empty() ? "" : "-") + p.first;
    std::string name = wanted;
    const auto taken = [&] {
        return plan != nullptr && std::any_of(plan->mixes.begin(), plan->mixes.end(), [&](const plan::Mix& m) { return m.name == name; });
    };
    for (int k = 2; taken(); ++k)
        name = fmt::format("{}-{}", wanted, k);
    return name;
}

} // namespace

ActForm::ActForm(const materials::Presets& presets, std::function<void()> news) : presets_(presets), tries_(presets, std::move(news)) {
    begin(-1);
}

void ActForm::begin(int after_step) {
    verb_ = 0;
    area_.clear(), made_area_.reset();
    mix_.clear();
    pigments_ = {{presets_.pigment("PB29") != nullptr ? "PB29" : presets_.pigments.front().id, first_pct}};
    water_only_ = warm_air_ = choosing_pigments_ = false;
    values_.clear();
    begins_ = Begins::at_once;
    wait_min_ = 5, at_min_ = 0, stage_ = 1;
    after_ = after_step;
    added_.reset();
    left_ = false;
    tried_.reset();
    sliders_.clear();
    asked_of_ = -1;
}

void ActForm::choose_area(std::string name, std::optional<NewArea> made) { area_ = std::move(name), made_area_ = std::move(made); }

const plan::Step* ActForm::before(const plan::Plan* plan) const {
    if (plan == nullptr || after_ < 0 || after_ >= static_cast<int>(plan->steps.size()))
        return nullptr;
    return &plan->steps[static_cast<std::size_t>(after_)];
}

Addition ActForm::addition(const plan::Plan* plan) const {
    Addition a;
    const TradeVerb& v = verb();
    const std::string area = v.has_place ? area_ : "";
    a.act.verb = v.verb;
    a.act.name = free_name(plan, area.empty() ? v.verb : fmt::format("{} {}", v.verb, area));
    a.act.area = area;
    if (v.has_place)
        a.area = made_area_;
    if (is_new_mix()) {
        a.mix = NewMix{free_mix_name(plan, pigments_), pigments_};
        a.act.mix = a.mix->name;
    } else if (v.lays != Lays::nothing && !water_only_)
        a.act.mix = mix_;
    for (const auto& [key, value] : v.usual)
        if (!values_.contains(key))
            a.act.more.emplace_back(key, value);
    for (const auto& [key, value] : values_)
        a.act.more.emplace_back(key, value);
    if (v.verb == std::string("dry") && warm_air_)
        a.act.more.emplace_back("warm_air", "true");
    const plan::Step* earlier = before(plan);
    a.after_step = earlier != nullptr ? after_ : -1;
    if (plan == nullptr)
        return a; // the first act begins at 0:00
    if (begins_ == Begins::by_clock || earlier == nullptr)
        a.act.at_s = begins_ == Begins::by_clock ? 60 * at_min_ : 0;
    else if (begins_ == Begins::at_stage) {
        a.act.when_is = stage_words[stage_];
        a.act.when_area = earlier->area() >= 0 ? plan->areas[static_cast<std::size_t>(earlier->area())].name : "sheet";
    } else
        a.act.wait_s = begins_ == Begins::after_wait ? 60 * wait_min_ : 0;
    return a;
}

/// Asked again whenever the slip or the plan below it is another.
void ActForm::try_it(const FormGround& g) {
    const Addition now = addition(g.ground.plan.get());
    if (asked_of_ != g.revision || !(now == asked_)) {
        if (asked_of_ != g.revision)
            stale_ = tries_.newest();
        asked_ = now, asked_of_ = g.revision;
        tries_.ask(g.ground, now);
    }
    if (const auto newest = tries_.newest(); newest != tried_ && asked_of_ >= 0)
        tried_ = newest;
    if (!tried_ || !tried_->plan || tried_->step >= static_cast<int>(tried_->plan->steps.size()))
        return;
    const std::string own = tried_->plan->steps[static_cast<std::size_t>(tried_->step)].name;
    std::vector<ActValue> values = act_values(*tried_->plan, tried_->step);
    std::erase_if(values, [&](const ActValue& v) { return v.where != own; }); // a mix of the plan's is turned where it is
    sliders_[tried_->addition.act.verb] = std::move(values);
}

const Tried* ActForm::known() const {
    return tried_ && tried_ != stale_ && tried_->addition == asked_ ? tried_.get() : nullptr;
}

std::string ActForm::label() const {
    const std::string does = std::string("Add: ") + verb().label;
    return !verb().has_place ? does : does + (area_.empty() ? ", the whole sheet" : " on " + area_);
}

std::string ActForm::begins(const plan::Plan* plan) const {
    const plan::Step* earlier = before(plan);
    if (plan != nullptr && begins_ == Begins::by_clock)
        return "at " + clock_text(60 * at_min_);
    if (earlier == nullptr)
        return "as the first act";
    switch (begins_) {
    case Begins::after_wait: return fmt::format("{:g} min after {}", wait_min_, earlier->name);
    case Begins::at_stage: return fmt::format("after {}, when {}", earlier->name, stage_words[stage_]);
    default: return "after " + earlier->name;
    }
}

void ActForm::go_on_with(const plan::Plan& plan, const plan::Wash& wash) {
    mix_ = plan.mixes[static_cast<std::size_t>(wash.mix)].name;
    water_only_ = false;
    values_["film_um"] = value_text(grid::um_from_m(wash.film_m), 0);
    values_["pace_cm2_s"] = value_text(1e4 * wash.pace_m2_s, 1);
    begins_ = Begins::at_once;
}

void ActForm::tell(std::map<std::string, std::string>& state) const {
    state["verb"] = verb().label;
    state["area"] = area_.empty() ? "the whole sheet" : area_;
    state["mix"] = is_new_mix() ? "a new mix" : mix_.empty() ? "none" : mix_;
    state["pigments"].clear();
    for (const auto& [id, share] : pigments_)
        state["pigments"] += (state["pigments"].empty() ? "" : " ") + id;
    const Tried* fresh = known();
    state["tried"] = fresh != nullptr ? "yes" : "no";
    state["dries to"] = fresh != nullptr && fresh->dries ? fmt::format("{:.0f}", fresh->dries->dry_L) : "none";
    state["reference there"] = fresh != nullptr && fresh->dries && std::isfinite(fresh->dries->reference_L)
                                   ? fmt::format("{:.0f}", fresh->dries->reference_L)
                                   : "none";
    state["form problem"] = fresh != nullptr && !fresh->problem.empty() ? fresh->problem : "none";
}

} // namespace tidemark::viewer
