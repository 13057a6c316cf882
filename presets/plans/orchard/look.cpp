#include "scene.h"

namespace orchard {
namespace {

Seen under_the_marks(Point p) {
    for (const auto see : {see_cart, see_near_picker, see_near_tree, see_far_picker, see_hives, see_shed,
                           see_middle_tree, see_right_tree, see_wall})
        if (const Maybe seen = see(p))
            return *seen;
    return p.y > wall_foot(p.x) ? see_ground(p) : see_distance(p);
}

} // namespace

Seen look(Point p) {
    Seen seen = under_the_marks(p);
    if (seen.part == Part::path || seen.part == Part::grass || p.y > 185)
        add_blades(p, seen);
    add_marks(p, seen);
    return seen;
}

} // namespace orchard
