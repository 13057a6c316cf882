#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace {

const Range pigment_pct{0, 40, "percent by weight", true};
constexpr double most_pigment_pct = 40; ///< more is a paste, no mix that runs (from memory)
constexpr double gum_of_pigment = 0.6;  ///< g of gum and sugar per g of pigment (from memory)

std::string letters_of(const std::string& text) { return text.substr(0, text.find_first_of("0123456789")); }

/// A whole Colour Index name, such as PB69, that no preset has: the presets of that colour. Another number is another
/// pigment and no slip, unless only the case differs or the name goes on ("PB15" of "PB15:3").
std::vector<std::string> of_its_colour(const std::string& id, const std::vector<std::string>& ids) {
    const std::string letters = letters_of(id);
    const bool whole = letters.size() < id.size() && letters[0] == 'P' &&
                       id.find_first_not_of("0123456789", letters.size()) == std::string::npos;
    std::vector<std::string> kin;
    for (const std::string& other : ids) {
        if (!whole || other.rfind(id + ":", 0) == 0 || other.rfind(id + "-", 0) == 0)
            return {};
        if (letters_of(other) == letters && other != letters)
            kin.push_back(other);
    }
    return kin;
}

/// The pigment's place in plan.pigments, where it goes on first use; -1 when no preset has it.
int pigment_index(Reading& reading, Keys& keys, const std::string& id) {
    std::vector<materials::Pigment>& used = reading.plan.pigments;
    for (std::size_t k = 0; k < used.size(); ++k)
        if (used[k].id == id)
            return static_cast<int>(k);
    if (const materials::Pigment* pigment = reading.presets.pigment(id)) {
        used.push_back(*pigment);
        return static_cast<int>(used.size()) - 1;
    }
    std::vector<std::string> ids;
    for (const materials::Pigment& pigment : reading.presets.pigments)
        ids.push_back(pigment.id);
    ids.push_back("gum_pct");
    const std::vector<std::string> kin = of_its_colour(id, ids);
    const Hint h = kin.empty()
                       ? hint(id, ids, "pigments.csv holds no pigment")
                       : Hint{"", fmt::format("{}, ..., or a row of your own in pigments.csv", fmt::join(kin, ", "))};
    keys.refuse(id, "unknown pigment " + in_quotes(id) + h.nearest, h.allowed);
    return -1;
}

Mix read_mix(Reading& reading, const std::string& name, const Value& table) {
    Keys keys(table, "mix " + in_quotes(name), reading.problems);
    Mix mix;
    mix.name = name;
    double pigment = 0;
    for (const Entry& entry : table.table) {
        if (entry.key == "gum_pct")
            continue;
        const int index = pigment_index(reading, keys, entry.key);
        const double share = keys.number(entry.key, pigment_pct, 0) / 100;
        pigment += share;
        if (index >= 0)
            mix.pigments.push_back({index, share});
    }
    mix.gum_mass_fraction =
        keys.number("gum_pct", {0, 30, "percent by weight"}, 100 * gum_of_pigment * pigment) / 100;
    if (table.table.empty())
        reading.problems.add(table.line, keys.said("is empty"),
                             "pigments with their percent by weight, PB29 = 1.5; clear water is the mix \"water\"");
    if (pigment * 100 > most_pigment_pct * (1 + 1e-12))
        reading.problems.add(table.line, keys.said(fmt::format("{:.6g} percent of pigment in all", pigment * 100)),
                             fmt::format("up to {}", most_pigment_pct));
    return mix;
}

} // namespace

void read_mixes(Reading& reading, Keys& root) {
    reading.plan.mixes.push_back({water_name, {}, 0});
    const Value* mixes = root.table("mix");
    if (mixes == nullptr)
        return;
    for (const Entry& entry : mixes->table) {
        if (entry.value.kind != Value::Kind::table)
            reading.problems.add(entry.line,
                                 fmt::format("mix {} is {}", in_quotes(entry.key), described(entry.value)),
                                 "a table, [mix.NAME], of pigments with their percent by weight");
        else if (entry.key == water_name || entry.key.empty())
            reading.problems.add(entry.line, fmt::format("a mix can't be called {}", in_quotes(entry.key)),
                                 "any other name; \"water\" is clear water and always there");
        else
            reading.plan.mixes.push_back(read_mix(reading, entry.key, entry.value));
    }
}

} // namespace tidemark::plan
