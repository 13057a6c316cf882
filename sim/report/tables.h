/// Verdicts and ledger as comma-separated tables; units in the column names, an empty cell where nothing was reached
/// or measured. An example stands above each.
#pragma once
#include "judge/judge_run.h"
#include "plan/plan.h"
#include "sheet/record.h"

#include <string>

namespace tidemark::report {

/// step,area,neighbour,edge,wanted,tidemark,width_mm,difference_L,rim_L,inside_L,outside_L,shift_mm,length_mm,
/// x_mm,y_mm,met,met_pct
/// dusk,hill,sky,soft,lost,no,3.72,35,0,45,80,0,124,60.2,58.1,moist,92
/// ,tree,hill,"not judged: ""tree"" was not painted in this run",hard,,,,,,,,,,,,     (at the end: wishes not judged)
std::string
edges_table(const plan::Plan&, const std::vector<judge::Edge>&, const std::vector<judge::WantVerdict>&);

/// A row for every stretch of every edge: side of the area, ends and middle, and why it is so in a painter's words.
/// step,area,neighbour,stretch,side,edge,tidemark,width_mm,difference_L,rim_L,rim_mm,shift_mm,length_mm,share_pct,
/// x_mm,y_mm,from_x_mm,from_y_mm,to_x_mm,to_y_mm,met,met_pct,laid_min,why
/// dusk,hill,sky,1,top,soft,no,6.1,35,0,0,0.3,80,61,60.2,58.1,21,55,99,57.5,moist,92,7.67,"laid at 7:40 on moist paper ..."
std::string stretches_table(const plan::Plan&, const std::vector<judge::Edge>&);

/// Laps, blooms and runs.
/// mark,step,area,time_min,x_mm,y_mm,size_mm,darker_L,paler_L,met,what
/// bloom,drop,sky,9.5,120,80,14,3.1,4.2,moist,"a bloom 14 mm across at 120, 80 mm ..."
std::string marks_table(const plan::Plan&, const std::vector<judge::Mark>&);

/// step,area,wet_from_min,moist_min,damp_min,dry_min,until_min        (minutes on the plan's clock)
/// dusk,hill,12,16.4,21,40.2,55
std::string windows_table(const plan::Plan&, const std::vector<judge::Window>&);

/// kind,name,from_L,to_L,reference_share_pct,sheet_share_pct,reference_L,sheet_L,difference_L,agreement
/// group,darks,0,41.2,20.1,22.4,28.3,31,2.7,
/// area,hill,,,12.5,12.5,35,41.8,6.8,
/// mass,"darks at 120, 80 mm",,,11.2,11.2,31,35.5,4.5,
/// agreement,kappa,,,,,,,,0.7431
std::string values_table(const judge::Values&);

/// mix,laid_mL,prepare_from_mL,prepare_to_mL,pigment,laid_g,prepare_g      (one row a pigment)
/// sky,10.6,14,15,PB29,0.11,0.155
std::string mixes_table(const std::vector<judge::MixAmount>&);

/// Each mix that washes laid: the plan's brushes as the run went, then what each of `others` would need.
/// mix,brush,in_the_plan,washes,refills,laid_mL,taken_mL,stays_mL
/// sky,mop-large,yes,1,2,10.6,14.31,3.7
std::string brushes_table(const std::vector<judge::MixAmount>&, const std::vector<materials::Brush>& others);

/// Water and pigment, all that came and went and what is there, at every recorded moment.
std::string ledger_table(const std::vector<sheet::LedgerLine>&);

} // namespace tidemark::report
