/// What is seen where: a walled orchard in early light, the sun low on the left and a little behind the scene.
///
/// The sheet is 380 x 280 mm, landscape. Things stand upright on a level ground and are drawn at a scale in mm of the
/// sheet a metre; the eye is 1.6 m above the ground, so whatever is 1.6 m tall reaches the eye line, near or far.
/// Ground of scale s lies eye_m * s below the eye line. What casts a shadow is asked for its outline once more, along
/// the ray from the ground to the sun.
#pragma once
#include "marks.h"

#include <optional>

namespace orchard {

constexpr double width_mm = 380, height_mm = 280;
constexpr double eye_line_mm = 128, centre_mm = 200, eye_m = 1.6, focal_mm = 400;
/// Towards the sun for each metre of height: to the left and away from the eye.
constexpr double sun_left_m = 2.2, sun_away_m = 1.05;

enum class Part {
    sky,
    far_trees,
    wall,
    gate_gap,
    gate,
    leaves,
    trunk,
    shed_roof,
    shed_lit,
    shed_side,
    shed_dark,
    hive_lit,
    hive_shade,
    hive_top,
    path,
    grass,
    head,
    clothes_lit,
    clothes_shade,
    cart_body,
    cart_accent,
    cart_dark
};

struct Seen {
    Part part = Part::sky;
    Colour colour;
    bool shade = false;      ///< of path and grass: in a cast shadow
    bool foreground = false; ///< ... in the big one in front
    bool mark = false;       ///< a fine dark mark lies over it
    bool glint = false;      ///< set in body colour at the end
};

/// What a place of the sheet shows.
Seen look(Point);

using Maybe = std::optional<Seen>;

// The things, nearest first where they overlap; nothing where the place is beside them.
Maybe see_cart(Point);
Maybe see_near_picker(Point);
Maybe see_far_picker(Point);
Maybe see_near_tree(Point);
Maybe see_hives(Point);
Maybe see_middle_tree(Point);
Maybe see_shed(Point);
Maybe see_right_tree(Point);
Maybe see_wall(Point);
Seen see_ground(Point);
Seen see_distance(Point);

/// Fine marks over what is there already: blades of grass, ladder, baskets, tools, twigs.
void add_marks(Point, Seen&);
void add_blades(Point, Seen&);
bool on_twig(Point); ///< a branch too thin for the trunks

/// 0 ... 1: how much of the sun's disc the thing hides from a place on its outline; `soft` is the penumbra's width.
double tree_hides(Point, double soft_mm);
double wall_top(double x_mm);
double wall_foot(double x_mm);
bool on_path(Point, double widened_m = 0);

} // namespace orchard
