/// Masses whose edges are changed by hand: what a brush goes over or an outline holds becomes of another group. Private to
/// the working half.
#pragma once
#include "viewer/studio/making_detail.h"

#include <functional>
#include <string>
#include <vector>

namespace tidemark::viewer {

std::string text_of(int mass);
int group_of(const reference::PictureMasses&, int mass); ///< Errors: BadInput (no such mass)
bool near_stroke(const std::vector<reference::Point>& stroke, double radius_mm, double x_mm, double y_mm);
bool within_outline(const std::vector<reference::Point>& outline, double x_mm, double y_mm); ///< even-odd
/// Pixels for which `covers` (x, y in mm) holds become of that group; names stay where they were.
void paint(Choices&, const reference::PictureMasses&, int group, const std::function<bool(double, double)>& covers);

} // namespace tidemark::viewer
