#include "plan/reading_detail.h"

#include <cmath>
#include <fmt/format.h>

namespace tidemark::plan {

void read_reference(Reading& reading, Keys& root) {
    const Value* table = root.table("reference");
    if (table == nullptr)
        return;
    Keys keys(*table, "[reference]", reading.problems);
    Reference reference;
    reference.file = file_in_folder(reading, keys, "picture");
    reference.groups = static_cast<int>(keys.whole("groups", 2, 7, 3));
    keys.finish();
    if (reference.file.empty())
        return;
    const int line = keys.line("picture");
    const std::string what =
        keys.said("picture " + in_quotes(as_named(reading, reference.file)));
    grid::Picture& picture = reference.picture;
    const Plan* earlier = reading.earlier;
    const bool known = earlier != nullptr && earlier->reference && earlier->reference->file == reference.file;
    try {
        picture = known ? earlier->reference->picture : grid::read_picture(reference.file, reading.problems.where(line) + ": " + what);
    } catch (const grid::BadInput& bad) {
        return reading.problems.add(line, bad);
    }
    const double aspect = static_cast<double>(picture.width) / picture.height;
    const double sheet = reading.plan.width_m / reading.plan.height_m;
    if (reading.plan.width_m > 0 && !(std::fabs(aspect / sheet - 1) <= 0.02))
        reading.problems.add(
            line, fmt::format("{} is {} x {} pixels, {:.4g} : 1", what, picture.width, picture.height, aspect),
            fmt::format("the sheet's {:.4g} : 1, within 2 percent", sheet));
    reading.plan.reference = std::move(reference);
}

} // namespace tidemark::plan
