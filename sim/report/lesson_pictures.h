/// What a lesson shows (plan/lesson.h): moments of one or two sheets, each with its minute and the stage of its paper.
///
/// Black letters on white, so that a print in greys says as much. Draws what it is given; reads no sheet.
#pragma once
#include "grid/picture.h"
#include "sheet/stage.h"

#include <string>
#include <vector>

namespace tidemark::report {

/// A sheet as it looked at a moment.
struct LessonView {
    grid::Picture cells;    ///< a pixel a cell (sheet/look.h)
    double time_s = 0;
    sheet::CellStage stage = sheet::CellStage::dry; ///< of what the lesson watches
    bool finished = false;  ///< all is dry
};

/// The driest stage that an area has reached, by its shares of wet, moist, damp, dry (sheet/stage.h).
sheet::CellStage stage_reached(const double (&share)[4]);

/// "8:15  moist"; of a finished sheet "251:30  all dry".
std::string words_of(const LessonView&);

/// All moments in the order of time, each with a view of every sheet, on one page that prints on A4 across with
/// margins of 10 mm. `captions`: one a sheet; all sheets have one size.
grid::Picture lesson_strip(const std::string& title, const std::vector<std::string>& captions,
                           const std::vector<std::vector<LessonView>>& moments);
extern const double strip_pixels_per_m;

/// One picture of the animation: the sheets side by side.
grid::Picture lesson_frame(const std::string& title, const std::vector<std::string>& captions,
                           const std::vector<LessonView>& sheets);

} // namespace tidemark::report
