#include "hand/take.h"

#include "grid/units.h"

#include <algorithm>

namespace tidemark::hand {

namespace {

/// What really left: the difference of the rounded masses.
double take_share(float& mass, double share) {
    const float had = mass;
    mass = static_cast<float>(had * (1 - share));
    return static_cast<double>(had) - mass;
}

void book_pigment(std::size_t k, double kg_m2, Books& b) {
    b.ledger.pigment_lifted_kg[k] += kg_m2 * b.cell_m2;
    b.record.pigment_lifted_kg[k] += kg_m2 * b.cell_m2;
}

void book_water(double kg_m2, Books& b) {
    b.ledger.lifted_kg += kg_m2 * b.cell_m2;
    b.record.water_lifted_kg += kg_m2 * b.cell_m2;
}

} // namespace

void take_film(sheet::SheetState& s, int i, int j, double down_to_m, Books& b) {
    const double depth_m = static_cast<double>(s.film_m(i, j)) + s.film_low_m(i, j);
    if (!(depth_m > down_to_m))
        return;
    const double share = 1 - std::max(down_to_m, 0.0) / depth_m;
    s.film_m(i, j) = static_cast<float>(std::max(down_to_m, 0.0));
    s.film_low_m(i, j) = 0;
    book_water((depth_m - s.film_m(i, j)) * grid::water_kg_m3, b);
    for (std::size_t k = 0; k < s.pigments.size(); ++k) {
        auto& p = s.pigments[k];
        book_pigment(k, take_share(p.afloat_lower(i, j), share) + take_share(p.afloat_upper(i, j), share), b);
    }
    b.ledger.gum_lifted_kg +=
        (take_share(s.gum_lower_kg_m2(i, j), share) + take_share(s.gum_upper_kg_m2(i, j), share)) * b.cell_m2;
}

void take_loose(sheet::SheetState& s, int i, int j, double share, Books& b) {
    for (std::size_t k = 0; k < s.pigments.size(); ++k)
        book_pigment(k, take_share(s.pigments[k].loose(i, j), share), b);
}

void take_moisture(sheet::SheetState& s, int i, int j, double share, Books& b) {
    const double resting = sheet::half_equilibrium_kg_m2(s.paper, s.room.humidity), had = s.front_kg_m2(i, j);
    if (had <= resting)
        return;
    s.front_kg_m2(i, j) = had - share * (had - resting);
    book_water(had - s.front_kg_m2(i, j), b);
}

} // namespace tidemark::hand
