/// What happened: the only thing the judge, the report and the viewer see of a run, besides the finished sheet.
#pragma once
#include <string>
#include <vector>

#include "sheet/act_cells.h"
#include "sheet/ledger.h"

namespace tidemark::sheet {

/// Where a wash came back to an edge of its own that had no film left: a hard join.
struct LeftBehind {
    long faces = 0;           ///< cell faces along such joins
    double first_s = 0;       ///< of the run
    int i = 0, j = 0;         ///< the cell that was being laid then
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
    ActCells cells;           ///< where it brought or took something
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
