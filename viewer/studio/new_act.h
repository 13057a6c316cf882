/// What a painter adds to a plan: an act, with a mix or an area of its own when the plan has none that will do.
#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace tidemark::viewer {

/// Only what is set is written. It begins at `at_s`; or `wait_s` after the act that it is put behind; or when an area has
/// reached a stage; or else as soon as the act above it is finished.
struct NewAct {
    std::string verb;          ///< wash, wet, charge, lift, ... as in a plan
    std::string name{};        ///< empty: as the plan reader names it
    std::string area{};        ///< empty: the whole sheet
    std::string mix{};
    std::optional<double> film_um{}, water_g_m2{}, pace_cm2_s{};
    std::optional<int> drops{};
    std::string tool{};        ///< of a lift
    std::optional<double> angle_deg{};
    std::string until{};       ///< of a dry
    std::optional<double> wait_s{};
    std::optional<double> at_s{};
    std::string when_area{}, when_is{}; ///< an area, or "sheet", and its stage
    std::vector<std::pair<std::string, std::string>> more{}; ///< other keys, as a plan has them
    bool operator==(const NewAct&) const = default;
};

struct NewMix {
    std::string name;
    std::vector<std::pair<std::string, double>> pigment_pct; ///< percent by weight
    bool operator==(const NewMix&) const = default;
};

struct NewArea {
    std::string name, mask; ///< mask: a file in the plan's folder
    bool operator==(const NewArea&) const = default;
};

struct Addition {
    NewAct act;
    std::optional<NewMix> mix{};
    std::optional<NewArea> area{};
    int after_step = -1; ///< of the plan; -1: as the first
    bool operator==(const Addition&) const = default;
};

} // namespace tidemark::viewer
