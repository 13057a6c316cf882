#include "viewer/window/trade_verbs.h"

namespace tidemark::viewer {

const std::vector<TradeVerb>& trade_verbs() {
    // Amounts as common practice has them: a good wash, a dozen drops, a board on a book.
    static const std::vector<TradeVerb> all{
        {"wash", "wash", Lays::mix, true, false, 2, {{"film_um", "100"}}},
        {"wet", "wet", Lays::nothing, true, false, 2, {{"water_g_m2", "150"}}},
        {"charge", "charge", Lays::mix, true, false, 2, {{"drops", "12"}}},
        {"lift", "lift", Lays::nothing, true, false, 1, {{"tool", "thirsty-brush"}}},
        {"soften an edge", "soften", Lays::nothing, true, true, 2, {{"width_mm", "6"}}},
        {"dry brush", "drybrush", Lays::mix, true, false, 2, {{"film_um", "40"}}},
        {"spatter", "spatter", Lays::mix_or_water, true, false, 1, {{"drops", "40"}}},
        {"mist", "spray", Lays::mix_or_water, true, false, 1, {{"water_g_m2", "30"}}},
        {"body colour", "body", Lays::mix, true, false, 1, {{"paint_g_m2", "60"}}},
        {"wait or dry", "dry", Lays::nothing, true, false, 0, {{"until", "dry"}}},
        {"tilt the board", "tilt", Lays::nothing, false, false, 1, {{"angle_deg", "10"}}},
        {"reserve", "reserve", Lays::nothing, true, false, 0, {}},
        {"uncover", "uncover", Lays::nothing, true, false, 0, {}}};
    return all;
}

} // namespace tidemark::viewer
