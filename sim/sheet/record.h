/// What happened: the only thing the judge, the report and the viewer see of a run, besides the finished sheet.
#pragma once
#include <string>
#include <vector>

#include "grid/field.h"
#include "sheet/ledger.h"
#include "sheet/stage.h"

namespace tidemark::sheet {

/// Where a wash came back to an edge of its own that had no film left: a hard join.
struct LeftBehind {
    long faces = 0;           ///< cell faces along such joins
    double first_s = 0;       ///< of the run
    int i = 0, j = 0;         ///< the cell that was being laid then
};

/// What an act did to a cell first.
enum class Touched : std::uint8_t {
    no = 0,
    yes = 1,
    at_left_edge = 2 ///< a wash, beside an edge of its own that had no film left
};

/// One act as it was played.
struct ActRecord {
    int step = 0;             ///< index into the plan's steps
    double start_s = 0, end_s = 0;
    double waited_s = 0;      ///< for a condition
    bool gave_up = false;     ///< it began because the longest wait for a stage had run out
    bool stopped_waiting = false; ///< of a wait: it ended because its longest time had run out
    bool ended = false;       ///< false: the run was stopped in the middle of it
    std::string waited_for;   ///< "sky damp", "the sheet dry"; empty: for no stage
    double share_reached = 0; ///< 0 ... 1 of that area, in that stage or a drier one when the wait was over
    double water_kg = 0;      ///< laid
    std::vector<double> pigment_kg; ///< laid, by pigment of the sheet
    double water_lifted_kg = 0;
    std::vector<double> pigment_lifted_kg; ///< by pigment of the sheet
    int brush_loads = 0;      ///< how often the brush was charged; 0: no brush that runs dry
    LeftBehind left_behind;   ///< of a wash
    grid::Field<std::uint8_t> touched; ///< Touched; not 0 where the act brought or took something
    grid::Field<std::uint8_t> met;  ///< Stage the cell was in just before it was touched (stage.h)
    /// When the cell was first touched: whole seconds after start_s, rounded down; `longest_after_s` for later ones.
    grid::Field<std::uint16_t> after_s;
    static constexpr std::uint16_t longest_after_s = 65535; ///< 18 hours
};

/// Share of an area in each stage at a moment. Area -1 is the whole sheet.
struct StageSample {
    double time_s = 0;
    int area = -1;
    double share[4] = {0, 0, 0, 0}; ///< 0 ... 1: wet, moist, damp, dry
};

struct Record {
    double cell_m = 0;
    double end_s = 0;
    bool dried = false;               ///< false: stopped by --until or the longest time
    std::vector<ActRecord> acts;      ///< in the order played
    std::vector<StageSample> stages;  ///< by time, then area
    std::vector<LedgerLine> ledger;
    std::vector<std::string> warnings; ///< one sentence each, for the painter
};

} // namespace tidemark::sheet
