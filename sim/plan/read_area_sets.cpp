#include "plan/coverage.h"
#include "plan/digest.h"
#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace {

constexpr std::size_t most_names = 64;

struct SetKey {
    const char* key;
    SetWord word;
};
constexpr SetKey sets[] = {{"all", SetWord::all}, {"minus", SetWord::minus}, {"and", SetWord::both}};

/// The areas that `kind` = ["a", "b"] names; false after a problem.
bool read_names(Reading& reading, AreaKeys& made, AreaSet& set) {
    Keys& keys = made.keys;
    const Value& value = *keys.find(made.kind);
    const auto is_name = [](const Value& v) { return v.kind == Value::Kind::text; };
    if (value.kind != Value::Kind::list || value.list.size() < 2 || value.list.size() > most_names ||
        !std::all_of(value.list.begin(), value.list.end(), is_name)) {
        const bool all_names = std::all_of(value.list.begin(), value.list.end(), is_name);
        const std::string what = value.kind != Value::Kind::list ? described(value)
                                 : all_names ? fmt::format("a list of {}", value.list.size())
                                             : "a list that holds other things than names";
        keys.refuse(made.kind, fmt::format("{} is {}", made.kind, what),
                    fmt::format("2 to {} names of areas, {} = [\"sky\", \"hills\"]", most_names, made.kind));
        return false;
    }
    bool sound = true;
    for (const Value& name : value.list) {
        const int known = reading.plan.area_index(name.text);
        sound = sound && known >= whole_sheet;
        if (known < whole_sheet && name.text == paper_name)
            keys.refuse(made.kind, "\"paper\" is what stays bare, no area", "\"sheet\" for the whole sheet");
        else
            set.areas.push_back(area_named(reading, keys, made.kind, name.text));
    }
    return sound;
}

/// Areas of areas, each looked at after those it is made of.
class Judge {
  public:
    explicit Judge(Reading& reading) : reading_(reading), mark_(reading.plan.areas.size(), Mark::unseen) {}
    bool is_sound(int area) {
        if (area < 0)
            return true;
        if (mark_[area] == Mark::open)
            refuse_ring(area);
        if (mark_[area] == Mark::unseen) {
            mark_[area] = Mark::open;
            path_.push_back(area);
            const bool sound = parts_are_sound(area) && is_there(area);
            path_.pop_back();
            mark_[area] = sound ? Mark::sound : Mark::unsound;
        }
        return mark_[area] == Mark::sound;
    }

  private:
    enum class Mark { unseen, open, sound, unsound };
    const std::string& name(int area) const { return reading_.plan.areas[area].name; }
    AreaKeys* made(int area) {
        for (AreaKeys& keys : reading_.areas)
            if (keys.area == area)
                return &keys;
        return nullptr; // of a step's mask
    }
    bool parts_are_sound(int area) {
        const Area& a = reading_.plan.areas[area];
        const AreaKeys* keys = made(area);
        bool sound = keys != nullptr ? keys->sound : !a.mask.value.empty();
        if (const AreaSet* set = std::get_if<AreaSet>(&a.form))
            for (const int part : set->areas)
                sound = is_sound(part) && sound;
        return sound;
    }
    void refuse_ring(int area) {
        const auto first = std::find(path_.begin(), path_.end(), area);
        std::string names;
        for (auto it = first; it != path_.end(); ++it)
            names += in_quotes(name(*it)) + " is made of ";
        names += path_.end() - first == 1 ? "itself" : in_quotes(name(area));
        AreaKeys* keys = made(area);
        keys->keys.refuse(keys->kind, "areas are made of each other: " + names);
    }
    /// Masks are looked at when they are read.
    bool is_there(int area) {
        const Area& a = reading_.plan.areas[area];
        if (std::holds_alternative<Mask>(a.form) || reading_.plan.width_m <= 0 || known_ || covers_anything(reading_.plan, area))
            return true;
        AreaKeys* keys = made(area);
        if (std::holds_alternative<AreaSet>(a.form))
            keys->keys.refuse(keys->kind,
                              keys->kind == "and" ? "and: they share nothing of the sheet"
                                                  : keys->kind + " leaves nothing of the sheet",
                              keys->kind == "and" ? "areas that overlap on the sheet"
                                                  : "a first area that reaches beyond the others, on the sheet");
        else
            keys->keys.refuse(keys->kind, keys->kind + " covers nothing of the sheet",
                              fmt::format("a shape on it, at least in part: from [0, 0] to [{:.6g}, {:.6g}] mm",
                                          reading_.plan.width_m * 1e3, reading_.plan.height_m * 1e3));
        return false;
    }

    Reading& reading_;
    bool known_ = reading_.earlier != nullptr && same_areas(*reading_.earlier, reading_.plan); ///< looked at then; it takes long
    std::vector<Mark> mark_;
    std::vector<int> path_; ///< from the area that was asked about to the one that is open last
};

} // namespace

const std::vector<std::string>& set_keys() {
    static const std::vector<std::string> keys = [] {
        std::vector<std::string> all;
        for (const SetKey& set : sets)
            all.emplace_back(set.key);
        return all;
    }();
    return keys;
}

void finish_areas(Reading& reading) {
    for (AreaKeys& made : reading.areas)
        for (const SetKey& set : sets)
            if (made.area >= 0 && made.kind == set.key) {
                AreaSet read{set.word, {}};
                made.sound = read_names(reading, made, read);
                reading.plan.areas[made.area].form = std::move(read);
            }
    Judge judge(reading);
    for (const AreaKeys& made : reading.areas)
        judge.is_sound(made.area);
}

} // namespace tidemark::plan
