/// The pictures of report.html: what was meant, above; what came, below.
///
///   reference, its values in groups, the masses as planned       (judge/strength.h)
///   the sheet wet, the sheet dry, where it differs from the reference
///
/// What needs a reference is left out without one. Each is at most `longest_side` pixels long: washes as JPEG, flat values
/// as PNG.
#pragma once
#include "report/page.h"

namespace tidemark::report {

constexpr int longest_side = 720;

struct PagePicture {
    std::string name, caption, alt; ///< "sheet, dry"; what to see in it; for those who don't see it
    std::string source;             ///< data: URI
    int width = 0, height = 0;
};

std::vector<PagePicture> page_pictures(const PageInputs&);

} // namespace tidemark::report
