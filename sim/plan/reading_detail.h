/// What is known while a plan is being read, and the parts that read it. The order of calls is read_plan.cpp.
#pragma once
#include "plan/files_from.h"
#include "plan/keys_detail.h"
#include "plan/plan.h"

#include <filesystem>
#include <string>
#include <vector>

namespace tidemark::plan {

/// An area on its way: [area.NAME]. What it is made of may stand later in the file, in a step's mask too.
struct AreaKeys {
    Keys keys;
    int area = whole_sheet;
    std::string kind;          ///< the key that says where it is; empty: a problem was reported
    bool sound = false;        ///< read without a problem
};

struct Reading {
    std::filesystem::path file, folder;
    const materials::Presets& presets;
    Problems problems;
    Plan plan;
    std::vector<std::filesystem::path> resolved; ///< of plan.areas: the file behind each name; empty for none
    std::vector<AreaKeys> areas;                 ///< those of [area.NAME]
    const Plan* earlier = nullptr;               ///< of the same file: its pictures are taken, not read again
    FilesFrom from = FilesFrom::folder;
};

/// The whole of a plan. Errors: BadInput with all problems.
Plan read_document(Reading&, const Value&);
Value document_of(const std::filesystem::path& file);
std::filesystem::path folder_of(const std::filesystem::path& file);

/// A step on its way: its keys are asked for by several readers, one after the other.
struct StepKeys {
    Keys keys;
    std::string verb, name;
    int area = whole_sheet;
};

void read_sheet(Reading&, Keys& root);
void read_mixes(Reading&, Keys& root);
void read_areas(Reading&, Keys& root);
void finish_areas(Reading&); ///< names within areas, rings, what covers nothing: when all areas are known
void read_reference(Reading&, Keys& root);
void read_steps(Reading&, Keys& root);
void read_wants(Reading&, Keys& root);
void check_wants(Reading&); ///< check_wants.cpp: edges that no run could judge; of a plan without other problems

Act read_act(Reading&, StepKeys&);             ///< read_acts.cpp
Act read_wash(Reading&, StepKeys&);            ///< read_wash.cpp
Act read_lift(StepKeys&);                      ///< read_touches.cpp, and the next ones
Act read_spatter(Reading&, StepKeys&);
Act read_spray(Reading&, StepKeys&);
Act read_drybrush(Reading&, StepKeys&);
Act read_soften(Reading&, StepKeys&);
Act read_body(Reading&, StepKeys&);
int read_mix_name(Reading&, Keys&);            ///< 0 after a problem
int read_mix_or_water(Reading&, Keys&);        ///< -1, clear water, when there is no key or it says so
void set_mask(Reading&, Keys&, int area, const std::filesystem::path&); ///< read_mask.cpp: empty after a problem
/// A picture of the sheet's aspect named by a key; without pixels after a problem.
grid::GreyPicture read_sheet_picture(Reading&, Keys&, const std::string& key, const std::filesystem::path&);
/// [[x, y], ...] in mm, which `value` of that key is or holds; empty after a problem.
std::vector<Point> read_points(Keys&, const std::string& key, const Value& value, std::size_t fewest);
inline const Range place_mm{-5000, 5000, "mm"};
bool read_shape(AreaKeys&, Area&);     ///< read_shapes.cpp; false after a problem
const std::vector<std::string>& shape_keys();
const std::vector<std::string>& set_keys(); ///< read_area_sets.cpp
void read_starts(Reading&, std::vector<StepKeys>&);
void read_step_areas(Reading&, std::vector<StepKeys>&); ///< mask = and area =
const std::vector<std::string>& act_words();

/// The area of that name, whole_sheet for "sheet"; else a problem at `key`.
int area_named(Reading&, Keys&, const std::string& key, const std::string& name);

std::vector<std::string> area_names(const Plan&);

/// The file `key` of a table speaks of, when it lies where files may lie, exists and is a file; else a problem and an
/// empty path.
std::filesystem::path file_in_folder(Reading&, Keys&, const std::string& key);
/// As a plan in that folder would name it.
std::string as_named(const Reading&, const std::filesystem::path& file);

extern const Words<Stage> stages;
extern const Words<EdgeWord> edges;
extern const Words<Board> boards;
extern const Words<Side> sides;
extern const Words<LiftTool> lift_tools;

/// Words for names that the program gives itself.
constexpr const char* sheet_name = "sheet"; ///< the area that is the whole sheet
constexpr const char* paper_name = "paper"; ///< in a want: the bare paper
constexpr const char* water_name = "water"; ///< the mix that is clear water

inline const Range share_of_area{0.05, 1, ""};
double read_pace(Keys&, double otherwise_cm2_s); ///< pace_cm2_s, in m²/s
constexpr double max_tilt_deg = 60;
inline Range degrees() { return {-360, 360, "degrees, clockwise from the right"}; }

} // namespace tidemark::plan
