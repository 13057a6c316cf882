/// Ribbons under one axis of minutes, as inline SVG: wet solid, moist hatched, damp dotted, dry empty; a bar above while
/// the hand is at work, a line with ends while the sheet is waited for. They read without colour.
///
/// All are drawn `minute_line_width` units wide, so that one below the other in a table's column they share the axis.
/// Each names in words what it shows.
#pragma once
#include "report/cue_sheet.h"
#include "report/html.h"

namespace tidemark::report {

constexpr double minute_line_width = 180, ribbon_height = 13;

/// The patterns; once in a page, before the first ribbon.
void write_patterns(Html&);
/// The axis' minutes, for the head of the column.
void write_axis(Html&, double end_min);
void write_ribbon(Html&, const Cue&, double end_min);
/// A sample of each pattern with its word.
void write_key(Html&);

/// Where the axis ends: with the last act, or when what it laid has lost its film; drying alone can take twice as long.
double axis_end_min(const CueSheet&);

/// Whole minutes between marks of the axis: 1, 2, 5, 10, 15, 30, 60 or whole hours, at most eight marks.
double axis_step_min(double end_min);

/// "wet 0:00 to 4:10, moist to 6:02, damp to 12:30, dry to 45:10": the words for a ribbon.
std::string ribbon_text(const Cue&);

} // namespace tidemark::report
