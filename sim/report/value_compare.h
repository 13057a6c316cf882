/// Reference and sheet side by side in the same few values, and where the sheet differs.
///
///   left    the reference, each cell in its group's mean lightness
///   middle  the sheet, sorted by the reference's thresholds, in the same greys
///   right   L* of the sheet minus that of the reference: mid grey where they agree, darker where the sheet is
///   darker,
///           lighter where it is lighter, full black and white at 40 L* and beyond; a touch of blue and ochre
///           besides, but the lightness alone can be read
#pragma once
#include "grid/field.h"
#include "grid/picture.h"
#include "judge/values.h"
#include "report/draw_detail.h"

namespace tidemark::report {

/// `values` with a reference; `lstar` the sheet's, at least as large as the groups.
grid::Picture value_compare(const judge::Values&, const grid::Field<float>& lstar);

/// The right one alone, one pixel a cell.
grid::Picture difference_picture(const judge::Values&, const grid::Field<float>& lstar);

/// L* in which a group is shown: its mean in the reference, the middle of its range when nothing there is in it.
double group_grey(const judge::GroupValues&);

/// The grey, tinted, of a difference in L*.
Tone difference_tone(double difference_L);

} // namespace tidemark::report
