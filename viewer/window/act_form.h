/// A slip on which an act is put together: what the hand does, where, with which mix, when; and how light that will dry
/// beside the reference, at once.
///
/// It knows no page: a page gives it the plan that the act is added to, draws it in a column of its own, and takes what
/// was put together when "Add: ..." is pressed. Nothing on it moves by itself: what is worked out has its place from the
/// start, and the buttons stand in a foot below the column, in one place whatever is told above them.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "materials/cautions.h"
#include "viewer/studio/try_out.h"
#include "viewer/window/act_values.h"
#include "viewer/window/trade_verbs.h"
#include "viewer/window/ui.h"

namespace tidemark::viewer {

struct FormGround {
    Ground ground;
    int revision = 0;                ///< another for every other text
    std::vector<std::string> areas;  ///< of the plan, to choose from; those that a page chooses by itself are not among them
    bool areas_by_hand = false;      ///< ... as all are: no list
    std::string where_hint;          ///< how an area is chosen on the sheet
    double minute_s = 0;             ///< that is shown
    const std::vector<materials::Caution>* cautions = nullptr;
};

class ActForm {
  public:
    ActForm(const materials::Presets&, std::function<void()> news); ///< Presets outlive it

    void begin(int after_step);      ///< an empty slip; -1: it will be the first act
    void put_behind(int step) { after_ = step; }
    void choose_area(std::string name, std::optional<NewArea> made = {}); ///< empty: the whole sheet
    const std::string& area() const { return area_; }
    float draw(Ui&, float x, float y, float width, const FormGround&); ///< its height
    float foot_height(const Ui&, float width) const;
    void draw_foot(Ui&, const Rect&, const plan::Plan*);               ///< the buttons; none: no act yet
    std::optional<Addition> take() { return std::exchange(added_, std::nullopt); } ///< once, when "Add: ..." was pressed
    bool take_left() { return std::exchange(left_, false); }                       ///< ... "Not now"
    bool busy() const { return tries_.busy(); }
    void tell(std::map<std::string, std::string>& state) const;

  private:
    enum class Begins { at_once, after_wait, at_stage, by_clock };
    const materials::Presets& presets_;
    TryOut tries_;
    std::shared_ptr<const Tried> tried_;    ///< of what is on the slip, or was a moment ago
    std::shared_ptr<const Tried> stale_;    ///< of another ground
    std::map<std::string, std::vector<ActValue>> sliders_; ///< by verb, as they were known last
    Addition asked_;
    int asked_of_ = -1;                     ///< revision
    std::size_t verb_ = 0;
    std::string area_, mix_;                ///< mix: a name of the plan's; empty: pigments_ as a new one
    std::optional<NewArea> made_area_;
    std::vector<std::pair<std::string, double>> pigments_;
    bool water_only_ = false;               ///< of what may be clear water
    std::map<std::string, std::string> values_; ///< by key of the act
    bool warm_air_ = false;
    Begins begins_ = Begins::at_once;
    double wait_min_ = 5, at_min_ = 0;
    std::size_t stage_ = 1;
    int after_ = -1;
    std::optional<Addition> added_;
    bool left_ = false, choosing_pigments_ = false;

    const Tried* known() const; ///< of what is on the slip now; none: not yet
    const TradeVerb& verb() const { return trade_verbs()[verb_]; }
    const plan::Step* before(const plan::Plan*) const; ///< the act that it follows
    bool is_new_mix() const { return verb().lays != Lays::nothing && mix_.empty() && !water_only_; }
    Addition addition(const plan::Plan*) const;
    void try_it(const FormGround&);
    void go_on_with(const plan::Plan&, const plan::Wash&);

    void draw_place(Ui&, float x, float& y, float width, const FormGround&);
    void draw_mix(Ui&, float x, float& y, float width, const FormGround&);
    void draw_new_mix(Ui&, float x, float& y, float width);
    void draw_pigment_row(Ui&, const materials::Pigment&, float x, float& y, float width);
    void draw_swatches(Ui&, float x, float& y, float width);
    void draw_values(Ui&, float x, float& y, float width);
    void draw_when(Ui&, float x, float& y, float width, const FormGround&);
    void draw_cautions(Ui&, float x, float& y, float width, const FormGround&);
    std::string label() const;                      ///< of the button: what it adds
    std::string begins(const plan::Plan*) const;    ///< in words
};

} // namespace tidemark::viewer
