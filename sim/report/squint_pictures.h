/// What squinting found, to look at and to read.
#pragma once
#include "reference/lights_to_save.h"
#include "reference/masses.h"
#include "reference/order.h"

#include <string>
#include <vector>

namespace tidemark::report {

grid::Picture grey_picture(const reference::ValueMap&);           ///< L* as greys
grid::Picture value_map_picture(const reference::ValueMap&);      ///< the same, with a strip of five values beside it
grid::Picture groups_picture(const reference::Groups&);           ///< each group flat, at its mean L*
/// Groups paled, boundaries, and in each mass its number or name, wholly inside it. A name without room gives way to the
/// number, and stands below the picture beside it; a number is small where it must be. Without room for that either it
/// stands near the mass, a line leading to a dot in the widest place of it; and where even this has no room, the dot is
/// alone and the number stands below, with its place in mm.
grid::Picture masses_picture(const reference::Masses&, const std::vector<std::string>& names, double pixels_per_mm);
/// The connected shape: the largest piece dark, islands hatched, bridges across the lights, the start ringed. In the
/// largest, when the hand is where (reference/order.h): darkest where it begins, palest where it ends, a pale line for
/// every so many seconds or minutes (said below), a black one between branches, and the branch's number as branches_table()
/// has it, where there is room.
grid::Picture connected_picture(const reference::Masses&, const reference::Connected&, const reference::Order&,
                                double pixels_per_mm);

std::string masses_table(const reference::Masses&, const std::vector<std::string>& names, int groups, double pixels_per_mm);
std::string borders_table(const reference::Masses&, double pixels_per_mm);
std::string lights_table(const std::vector<reference::Light>&);
std::string branches_table(const reference::Order&);

} // namespace tidemark::report
