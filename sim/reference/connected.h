/// The shape that holds a picture together: its midtones and darks, as far as they hang together.
///
/// Painters look for one large connected shape of all that is not light, and paint it as one wash, round the lights;
/// what lies apart from it they join by losing an edge somewhere (common practice). Pieces are connected along sides, as
/// masses are. Everything follows from the masses: a mirrored picture gives the mirrored answer.
///
/// Bridges: from the largest piece on, the nearest island is joined first, to the piece or to an island that has been
/// joined: Prim's rule, and what comes out is the shortest set of bridges that joins those islands (minimum spanning
/// tree). Ways between pieces are found by one spread from all of them at once, each light pixel going to the nearest; the
/// pairs that meet there are enough for the tree (Mehlhorn 1988, Inf. Process. Lett. 27, 125). Lengths as in
/// grid/geodesic.h: up to 2.7 % too long.
///
/// Range   islands 0 to 1e6 mm², bridges 0 to 1000 mm, 0.001 to 1000 pixels a mm, else refused (grid/within.h). A picture
///         without midtones and darks, or of one value only, has no pieces; shares are then 0.
#pragma once
#include "reference/masses.h"

#include <optional>
#include <vector>

namespace tidemark::reference {

/// On the sheet, from its top left corner. A pixel's own place is its middle.
struct Place {
    double x_mm = 0, y_mm = 0;
};

struct Connecting {
    std::optional<int> light_from{}; ///< masses of this group and lighter ones are light; none: the lightest there is
    double island_mm2 = 100;         ///< smaller islands are left where they are
    double bridge_mm = 15;           ///< longest bridge
    int bridges = 5;                 ///< most
};

struct Piece {
    std::vector<int> masses; ///< rising
    std::int64_t pixels = 0;
    double area_mm2 = 0;
    Place centre;
};

/// A light mass beside the largest piece.
struct LightBeside {
    int mass = 0;
    double area_mm2 = 0;
    double border_mm = 0;  ///< that it shares with the piece, along pixel sides
    bool enclosed = false; ///< no way leads from it to the picture's border but across the piece
};

struct Bridge {
    int island = 0, to = 0;    ///< pieces
    double length_mm = 0;      ///< of light to be crossed; 0.4 of a pixel where they touch at a corner
    int light = 0;             ///< the light mass it crosses, or most of it
    double contrast_lstar = 0; ///< of the edge to be lost: that light against the darker of the masses at the ends
    double share_after = 0;    ///< with this bridge and all before it
    std::vector<Place> way;    ///< from the island's last pixel to the other's first
};

struct Connected {
    std::vector<int> piece_of;      ///< one a mass; -1: light
    std::vector<Piece> pieces;      ///< the largest first, of equal ones the one that has the mass of lowest number
    double area_mm2 = 0;            ///< of all pieces
    double share = 0;               ///< 0 ... 1 of it in the largest
    std::vector<LightBeside> round; ///< what the largest is painted round, the largest light first
    std::vector<Bridge> bridges;    ///< in the order of joining
    double share_after = 0;         ///< with all bridges
    /// The piece that a pixel lies in; -1: light.
    int at(const Masses& m, int x, int y) const { return piece_of[m.at(x, y)]; }
};

/// Of those that any mass has; 0 without masses.
int lightest_group(const Masses&);

Connected connected_shape(const Masses&, double pixels_per_mm, const Connecting& = {});

} // namespace tidemark::reference
