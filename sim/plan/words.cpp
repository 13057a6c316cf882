#include "plan/reading_detail.h"

namespace tidemark::plan {

const Words<Stage> stages{{"wet", Stage::wet}, {"moist", Stage::moist}, {"damp", Stage::damp}, {"dry", Stage::dry}};
const Words<EdgeWord> edges{
    {"hard", EdgeWord::hard}, {"firm", EdgeWord::firm}, {"soft", EdgeWord::soft}, {"lost", EdgeWord::lost}};
const Words<Board> boards{{"sealed", Board::sealed}, {"absorbent", Board::absorbent}, {"open", Board::open}};
const Words<Side> sides{{"front", Side::front}, {"back", Side::back}, {"both", Side::both}};
const Words<LiftTool> lift_tools{{"thirsty-brush", LiftTool::thirsty_brush},
                                 {"tissue", LiftTool::tissue},
                                 {"sponge", LiftTool::sponge},
                                 {"scrub", LiftTool::scrub}};

namespace {
template <class Enum> const char* word_in(const Words<Enum>& words, Enum value) {
    for (const auto& [text, meaning] : words)
        if (meaning == value)
            return text.c_str();
    return "";
}
} // namespace

const char* word(Stage value) { return word_in(stages, value); }
const char* word(EdgeWord value) { return word_in(edges, value); }
const char* word(Board value) { return word_in(boards, value); }
const char* word(Side value) { return word_in(sides, value); }
const char* word(LiftTool value) { return word_in(lift_tools, value); }
const char* stage_words() { return "wet, moist, damp or dry"; }

const char* form_word(const Area& area) {
    static constexpr const char* in_the_order_of_Form[]{"mask", "rectangle", "ellipse", "polygon", "line"};
    static_assert(std::variant_size_v<Form> == 6, "a new form needs its word here");
    if (const AreaSet* set = std::get_if<AreaSet>(&area.form))
        return set->word == SetWord::all ? "all" : set->word == SetWord::minus ? "minus" : "and";
    return in_the_order_of_Form[area.form.index()];
}

const char* act_word(const Act& act) { return act_words()[act.index()].c_str(); }

const std::vector<std::string>& act_words() {
    static const std::vector<std::string> in_the_order_of_Act{
        "wet", "wash", "charge", "tilt", "dry", "lift", "spatter", "spray", "drybrush", "soften", "reserve", "uncover",
        "body"};
    static_assert(std::variant_size_v<Act> == 13, "a new act needs its word here");
    return in_the_order_of_Act;
}

} // namespace tidemark::plan
