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
const char* word(Stage);
const char* word(EdgeWord);
const char* word(Board);
const char* word(Side);
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
enum class Travel { rows, downhill, from_point };
struct Wash {
    int area = whole_sheet;
    int mix = 0;
    double film_m = 100e-6;
    double pace_m2_s = 6e-4;
    Travel travel = Travel::rows;
    double from_x_m = 0, from_y_m = 0; ///< start point, Travel::from_point
};
/// Drops of another mix, spread over an area. At most `count` drops of `drop_m3` each, seeded.
struct Charge {
    int area = whole_sheet;
    int mix = 0;
    int count = 12;
    double drop_m3 = 20e-9;
    double drop_radius_m = 3e-3;
    double seconds_per_drop = 0.5;
};
struct Tilt { double angle_rad = 0; double direction_rad = 1.5707963267948966; }; ///< downhill; 90° is down the sheet
/// Wait, or warm air. Ends when `area` has reached `until`, or after `longest_s`.
struct Dry {
    int area = whole_sheet;
    std::optional<Stage> until;    ///< none: for longest_s
    double longest_s = 7200;
    bool warm_air = false;         ///< a dryer held at a distance
    double air_temperature_K = 323.15, air_m_s = 2.0;
};
/// The acts this program can play. A new act: a struct here, a reader in read_acts.cpp, a player in sim/hand.
using Act = std::variant<Wet, Wash, Charge, Tilt, Dry>;
const char* act_word(const Act&); ///< "wet", "wash", ...

struct AtTime { double time_s = 0; };
struct AfterStep { int step = 0; double wait_s = 0; };             ///< after the hand has finished it
struct WhenStage { int area = 0; Stage is = Stage::damp; double longest_s = 3600; }; ///< waits from the end of the step before
using Start = std::variant<AtTime, AfterStep, WhenStage>;

struct Step {
    std::string name;   ///< unique; the verb when the plan gives none ("wet", then "wet 2")
    int line = 0;       ///< in the plan file
    Start start;
    Act act;
    int area() const;   ///< of the act; whole_sheet for tilt
};
bool paints(const Step&); ///< a wash or a charge: what has edges on the finished sheet

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
