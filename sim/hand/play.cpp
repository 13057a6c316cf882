// What a touch does to its cell.
#include "hand/lift_table.h"
#include "hand/take.h"
#include "hand/touch.h"
#include "sheet/stage.h"

#include <algorithm>

namespace tidemark::hand {

namespace {

using grid::Field;
using sheet::SheetState;
using sheet::Surface;

constexpr double least_depth_share = 1.0 / 6;

struct Hand {
    SheetState& s;
    Work& work;
    const plan::Mix* mix;
    const LandOn& land;
    Books books;
    sheet::StageRule rule;
    double soft_kg_m2; ///< a front half with more holds free water: paper that is cool, limp and tears

    sheet::CellStage stage(int i, int j) const {
        return sheet::stage_of(rule, s.film_m(i, j), s.front_kg_m2(i, j));
    }
    bool is(int i, int j, Surface what) const { return s.surface(i, j) == static_cast<std::uint8_t>(what); }
};

/// A new cell of a wash beside cells of the same wash: has their edge been left behind until no film was there?
void join(Hand& h, int i, int j) {
    auto& record = h.books.record;
    constexpr int beside[4][2] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}};
    for (auto [di, dj] : beside) {
        const int a = i + di, b = j + dj;
        if (!h.s.inside(a, b) || !record.cells.touched(a, b) || !h.work.joins(a, b) || h.stage(a, b) < sheet::CellStage::damp)
            continue;
        record.cells.touch(i, j, sheet::Touched::at_left_edge);
        if (record.left_behind.faces++ == 0)
            record.left_behind.first_s = h.s.time_s, record.left_behind.i = i, record.left_behind.j = j;
    }
}

void meet(Hand& h, const Touch& t) {
    auto& record = h.books.record;
    const int i = t.i, j = t.j;
    if (record.cells.touched(i, j))
        return;
    record.cells.meet(i, j, h.stage(i, j), t.at_s + h.work.paused_s);
    if (h.work.joins.nx() > 0 && h.work.joins(i, j))
        join(h, i, j);
}

/// Half of what is brought starts in either half of the film: a brush mixes what it lays. Returns kg.
double add(Hand& h, Field<float>& lower, Field<float>& upper, int i, int j, double kg_m2) {
    const float a = lower(i, j), b = upper(i, j), half = static_cast<float>(0.5 * kg_m2);
    lower(i, j) = a + half, upper(i, j) = b + half;
    return ((static_cast<double>(lower(i, j)) - a) + (static_cast<double>(upper(i, j)) - b)) * h.books.cell_m2;
}

void add_solids(Hand& h, int i, int j, double film_m) {
    if (!h.mix)
        return;
    const double mix_kg_m2 = film_m * 1000.0 * h.work.mix_per_water;
    for (const plan::PigmentShare& p : h.mix->pigments) {
        auto& state = h.s.pigments[p.pigment];
        const double kg = add(h, state.afloat_lower, state.afloat_upper, i, j, p.mass_fraction * mix_kg_m2);
        h.books.ledger.pigment_laid_kg[p.pigment] += kg;
        h.books.record.pigment_kg[p.pigment] += kg;
    }
    h.books.ledger.gum_laid_kg +=
        add(h, h.s.gum_lower_kg_m2, h.s.gum_upper_kg_m2, i, j, h.mix->gum_mass_fraction * mix_kg_m2);
}

/// Of a brush with a load: what it gave, and the pause when that was all.
void spend(Work& w, double given_m3, sheet::ActRecord& record) {
    if (w.load_m3 <= 0)
        return;
    record.brush_loads = std::max(record.brush_loads, 1);
    w.left_m3 -= given_m3;
    if (w.left_m3 > 0 || w.next + 1 >= w.touches.size() || w.touches[w.next + 1].does != Does::lay)
        return;
    w.left_m3 += w.load_m3;
    w.paused_s += w.refill_s;
    ++record.brush_loads;
}

void lay(Hand& h, const Touch& t) {
    SheetState& s = h.s;
    const int i = t.i, j = t.j;
    const float had = s.film_m(i, j);
    if (had == 0)
        h.land.dry_cell(s, i, j);
    else if (h.work.brush)
        h.land.wet_cell(s, i, j);
    const bool levels = had == 0 && t.does == Does::lay;
    const float level = levels ? std::max(t.film_m - s.relief_m(i, j), static_cast<float>(t.film_m * least_depth_share))
                               : t.film_m;
    const float depth = h.work.sheds_over_m > 0 ? std::min(level, static_cast<float>(h.work.sheds_over_m)) : level;
    s.film_m(i, j) = had + depth;
    s.surface(i, j) = static_cast<std::uint8_t>(Surface::wetted);
    const double film = static_cast<double>(s.film_m(i, j)) - had, surplus = static_cast<double>(level) - depth;
    const double cell = h.books.cell_m2;
    h.books.ledger.laid_kg += (film + surplus) * 1000.0 * cell;
    h.books.ledger.run_off_kg += surplus * 1000.0 * cell;
    h.books.record.water_kg += (film + surplus) * 1000.0 * cell;
    add_solids(h, i, j, film);
    spend(h.work, (film + surplus) * cell, h.books.record);
}

void soften(Hand& h, const Touch& t) {
    const bool was_dry = h.s.film_m(t.i, t.j) == 0;
    lay(h, t);
    if (was_dry)
        h.land.wet_cell(h.s, t.i, t.j); // what the new pass loosened
    take_film(h.s, t.i, t.j, (1 - soften_takes) * h.s.film_m(t.i, t.j), h.books);
}

void lift(Hand& h, const Touch& t) {
    SheetState& s = h.s;
    const Takes& tool = takes(h.work.tool);
    const int stage = static_cast<int>(h.stage(t.i, t.j));
    if (tool.loosens[stage] > 0 && h.land.scrub)
        h.land.scrub(s, t.i, t.j, t.share * tool.loosens[stage]);
    if (tool.stirs)
        h.land.wet_cell(s, t.i, t.j);
    const double depth_m = static_cast<double>(s.film_m(t.i, t.j)) + s.film_low_m(t.i, t.j);
    take_film(s, t.i, t.j, depth_m - t.share * std::max(depth_m - tool.film_left_m, 0.0), h.books);
    take_loose(s, t.i, t.j, t.share * tool.loose[stage], h.books);
    take_moisture(s, t.i, t.j, t.share * tool.moisture[stage], h.books);
}

void reserve(Hand& h, const Touch& t) {
    if (h.s.film_m(t.i, t.j) > 0)
        return void(++h.work.too_wet);
    h.s.surface(t.i, t.j) = static_cast<std::uint8_t>(Surface::reserved);
    ++h.work.covered;
}

void uncover(Hand& h, const Touch& t) {
    if (!h.is(t.i, t.j, Surface::reserved))
        return;
    h.s.surface(t.i, t.j) = static_cast<std::uint8_t>(Surface::dry);
    ++h.work.covered;
    for (int j = t.j - 1; j <= t.j + 1; ++j)
        for (int i = t.i - 1; i <= t.i + 1; ++i)
            if (h.s.inside(i, j) && (h.s.film_m(i, j) > 0 || h.s.front_kg_m2(i, j) > h.soft_kg_m2))
                return void(++h.work.too_wet);
}

void touch(Hand& h, const Touch& t) {
    if (t.does == Does::uncover)
        return uncover(h, t);
    if (h.is(t.i, t.j, Surface::reserved))
        return;
    if (t.does == Does::reserve)
        return reserve(h, t);
    meet(h, t);
    h.s.expect_pigment(t.i, t.j);
    switch (t.does) {
    case Does::soften: return soften(h, t);
    case Does::take_down: return take_film(h.s, t.i, t.j, t.film_m, h.books);
    case Does::lift: return lift(h, t);
    default: return lay(h, t);
    }
}

void wet_the_back(SheetState& s, const Work& w, sheet::Ledger& ledger, sheet::ActRecord& record) {
    const double room = sheet::half_capacity_kg_m2(s.paper), cell = s.geometry.cell_area_m2();
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            const double brought = w.back_kg_m2 * w.back_share(i, j), had = s.back_kg_m2(i, j);
            if (brought <= 0)
                continue;
            s.back_kg_m2(i, j) = std::max(had, std::min(had + brought, room));
            const double soaked = s.back_kg_m2(i, j) - had;
            ledger.laid_kg += brought * cell;
            ledger.run_off_kg += (brought - soaked) * cell;
            record.water_kg += brought * cell;
            record.cells.touch(i, j, sheet::Touched::yes);
        }
}

} // namespace

bool play(SheetState& s,
          const plan::Plan& plan,
          Work& w,
          double until_s,
          const LandOn& land,
          sheet::Ledger& ledger,
          sheet::ActRecord& record) {
    bool landed = false;
    if (w.back_kg_m2 > 0)
        wet_the_back(s, w, ledger, record), w.back_kg_m2 = 0, landed = true;
    Hand hand{.s = s,
              .work = w,
              .mix = w.mix < 0 ? nullptr : &plan.mixes[w.mix],
              .land = land,
              .books = {ledger, record, s.geometry.cell_area_m2()},
              .rule = sheet::stage_rule(s),
              .soft_kg_m2 = sheet::half_equilibrium_kg_m2(s.paper, 1.0)};
    for (; w.next < w.touches.size() && w.touches[w.next].at_s + w.paused_s <= until_s; ++w.next) {
        touch(hand, w.touches[w.next]);
        landed = true;
    }
    return landed;
}

} // namespace tidemark::hand
