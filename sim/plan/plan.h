/// A plan as the painter wrote it, in SI. Made by read_plan(); nothing in it is unchecked.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "grid/picture.h"
#include "materials/presets.h"
#include "plan/area.h"

namespace tidemark::plan {

enum class Stage { wet, moist, damp, dry };          ///< in the order of drying
enum class EdgeWord { hard, firm, soft, lost };
enum class Board { sealed, absorbent, open };
enum class Side { front, back, both };
enum class LiftTool { thirsty_brush, tissue, sponge, scrub };
const char* word(Stage);
const char* word(EdgeWord);
const char* word(Board);
const char* word(Side);
const char* word(LiftTool);
/// The share of an area that must be in a stage, or a drier one, when the plan gives none: the sheen is broken over half
/// of it; nearly no film; all dry but stray cells. As the windows have it.
constexpr double usual_share(Stage s) { return s == Stage::moist ? 0.5 : s == Stage::damp ? 0.8 : 0.95; }
const char* stage_words();  ///< "wet, moist, damp or dry", for messages

struct PigmentShare { int pigment = 0; double mass_fraction = 0; }; ///< index into Plan::pigments; of the mix's weight

struct Mix {
    std::string name;
    std::vector<PigmentShare> pigments;
    double gum_mass_fraction = 0; ///< 0.6 g of gum and sugar per g of pigment unless the plan says (from memory)
};

struct Wet {
    Side side = Side::front;
    double water_kg_m2 = 0.15;    ///< in all; half to each face when both are wetted
    int area = whole_sheet;
    double pace_m2_s = 40e-4;     ///< a wide brush of clear water (common practice)
};
using Stroke = std::vector<Point>;      ///< two points or more
constexpr double loaded_mark_m = 12e-3; ///< width of the mark of a loaded brush that the plan does not name (common practice)
enum class Travel { rows, downhill, from_point, order, strokes };
enum class Bead { left, picked_up };
struct Wash {
    int area = whole_sheet;
    int mix = 0;
    double film_m = 100e-6;
    double pace_m2_s = 6e-4;
    Travel travel = Travel::rows;
    double from_x_m = 0, from_y_m = 0; ///< start point, Travel::from_point
    grid::GreyPicture order{};         ///< Travel::order: dark is painted first
    std::vector<Stroke> strokes{};     ///< Travel::strokes: a cell is painted when the first of them passes nearest
    std::optional<materials::Brush> brush{}; ///< none: a brush that never runs dry
    double refill_s = 4;               ///< the pause when it is empty (common practice: 3 to 6 s)
    Bead bead = Bead::left;            ///< what becomes of the water that stands at the last edge
    double mark_m() const { return brush ? brush->mark_max_m : loaded_mark_m; } ///< how wide the hand paints
};
/// Drops or short strokes of another mix, spread over an area; seeded.
struct Charge {
    int area = whole_sheet;
    int mix = 0;
    int count = 12;
    double drop_m3 = 20e-9;            ///< of a drop or a stroke
    double drop_radius_m = 3e-3;       ///< half the width of a stroke
    double stroke_m = 0;               ///< length of strokes; 0: drops
    double seconds_per_drop = 0.5;
};
/// Takes film, moisture and liftable pigment away; how much depends on the tool and on the stage it meets.
struct Lift {
    int area = whole_sheet;
    LiftTool tool = LiftTool::thirsty_brush;
    double pace_m2_s = 5e-4;
};
/// Flicked drops of mixed size, spread over an area and a little beyond its edge; seeded. mix -1: clear water.
struct Spatter {
    int area = whole_sheet;
    int mix = -1;
    int count = 40;
    double smallest_m = 0.4e-3, largest_m = 3e-3; ///< diameter of the mark; a cap at the paper's advancing angle
    double seconds = 5;
};
/// A fine mist, even over the area, in droplets. mix -1: clear water.
struct Spray {
    int area = whole_sheet;
    int mix = -1;
    double water_kg_m2 = 0.03;
    double droplet_m = 0.3e-3;         ///< diameter
    double seconds = 5;
};
/// A nearly dry brush dragged over the paper: paint on what stands out of the relief only.
struct Drybrush {
    int area = whole_sheet;
    int mix = 0;
    double film_m = 40e-6;             ///< on what it touches
    std::optional<double> share{};     ///< of the area that it touches, the highest part; none: as the paper has it
    double pace_m2_s = 10e-4;
};
/// A clean damp brush drawn along the boundary of an area (with `along`: only where it meets that area).
struct Soften {
    int area = 0;
    std::optional<int> along;
    double width_m = 6e-3;             ///< half of it on either side
    double water_kg_m2 = 0.04;
    double speed_m_s = 0.03;
};
struct Reserve { int area = whole_sheet; double pace_m2_s = 3e-4; };
struct Uncover { int area = whole_sheet; double pace_m2_s = 10e-4; };
/// Opaque colour, thick enough not to run: a mix laid by weight of wet paint.
struct Body {
    int area = whole_sheet;
    int mix = 0;
    double paint_kg_m2 = 0.06;
    double pace_m2_s = 2e-4;
};
struct Tilt { double angle_rad = 0; double direction_rad = 1.5707963267948966; }; ///< downhill; 90° is down the sheet
/// Wait, or warm air. Ends when `area` has reached `until`, or after `longest_s`.
struct Dry {
    int area = whole_sheet;
    std::optional<Stage> until;    ///< none: for longest_s
    double longest_s = 7200;
    double share = 0.95;           ///< of the area that must have got there
    bool warm_air = false;         ///< a dryer held at a distance
    double air_temperature_K = 323.15, air_m_s = 2.0;
    std::optional<double> blows_rad{}; ///< along the sheet, from +x towards +y; none: moved about, so no way is favoured
};
/// The acts this program can play. A new act: a struct here, a reader (read_act), touches in sim/hand.
using Act = std::variant<Wet, Wash, Charge, Tilt, Dry, Lift, Spatter, Spray, Drybrush, Soften, Reserve, Uncover, Body>;
const char* act_word(const Act&); ///< "wet", "wash", ...

struct AtTime { double time_s = 0; };
struct AfterStep { int step = 0; double wait_s = 0; };             ///< after the hand has finished it
struct WhenStage { int area = 0; Stage is = Stage::damp; double longest_s = 3600; double share = 0.95; }; ///< waits from the end of the step before
using Start = std::variant<AtTime, AfterStep, WhenStage>;

struct Step {
    std::string name;   ///< unique; the verb when the plan gives none ("wet", then "wet 2")
    int line = 0;       ///< in the plan file
    Start start;
    Act act;
    int area() const;   ///< of the act; whole_sheet for tilt
};
bool paints(const Step&); ///< wash, charge, drybrush, body: what has edges on the finished sheet

struct Want {
    int line = 0;
    std::string first, second;   ///< area or step names, or "paper"
    EdgeWord edge = EdgeWord::firm;
};

struct Reference {
    std::filesystem::path file;
    int groups = 3;
    grid::Picture picture;
};

struct Plan {
    std::filesystem::path file;
    double width_m = 0, height_m = 0;
    materials::Paper paper;
    materials::Room room;
    Board board = Board::sealed;
    double tilt_rad = 0, tilt_direction_rad = 1.5707963267948966;
    std::uint64_t seed = 1;
    std::vector<materials::Pigment> pigments; ///< those that the mixes use, in order of first use
    std::vector<Mix> mixes;
    std::vector<Area> areas;
    std::vector<Step> steps;     ///< in the order of the file
    std::vector<Want> wants;
    std::optional<Reference> reference;
    int area_index(const std::string& name) const;  ///< -1 and below: none
    int step_index(const std::string& name) const;  ///< -1: none
};

} // namespace tidemark::plan
