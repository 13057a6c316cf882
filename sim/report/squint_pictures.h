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
/// Groups paled, boundaries, and in each mass large enough its number (from 1) or name.
grid::Picture masses_picture(const reference::Masses&, const std::vector<std::string>& names);
/// The connected shape: the largest piece dark, islands grey, bridges across the lights, the start ringed, and a line for
/// every minute of painting.
grid::Picture connected_picture(const reference::Masses&, const reference::Connected&, const reference::Order&,
                                double pixels_per_mm, double pace_cm2_s);

std::string masses_table(const reference::Masses&, const std::vector<std::string>& names, int groups, double pixels_per_mm);
std::string borders_table(const reference::Masses&, double pixels_per_mm);
std::string lights_table(const std::vector<reference::Light>&);
std::string branches_table(const reference::Order&);

} // namespace tidemark::report
