/// What a hand can do, in the words of the trade: which act of a plan it is, what that act must be told, and how it begins.
#pragma once
#include <array>
#include <string>
#include <utility>
#include <vector>

namespace tidemark::viewer {

enum class Lays { nothing, mix, mix_or_water };

struct TradeVerb {
    const char* label; ///< "drop in colour"
    const char* verb;  ///< as a plan has it
    Lays lays = Lays::nothing;
    bool has_place = true;                 ///< an area; else the whole board
    bool needs_area = false;               ///< an area of its own, not the whole sheet
    int sliders = 0;                       ///< how many act_values() has of it, besides its mix
    std::vector<std::pair<std::string, std::string>> usual{}; ///< keys that must be given, as one begins
};
const std::vector<TradeVerb>& trade_verbs();

struct ToolWord {
    const char *label, *tool;
};
inline constexpr std::array lift_words{ToolWord{"thirsty brush", "thirsty-brush"}, ToolWord{"tissue", "tissue"}, ToolWord{"sponge", "sponge"},
                                ToolWord{"scrubbing", "scrub"}};
inline constexpr std::array stage_words{"wet", "moist", "damp", "dry"};

} // namespace tidemark::viewer
