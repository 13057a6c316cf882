// How dark a dried drop is against how much pigment was in it: the mean pixel of the deposit follows an exponential of the
// concentration that saturates (González-Gutiérrez, Moctezuma, Angeles, Rios-Ramirez, Zetina, Marin & Zenit 2019,
// arXiv:1909.09098). Only the abstract was at hand: the shape of the law and no numbers, so the bound on R² is set here.
// Drops of eight concentrations, each thrice the last, are dried and their darkness is fitted with D∞ (1 - exp(-c/c₀)).
//
// The abstract also finds rings on dry paper whatever the pigment. That is not held to here: grains that sink before the
// drop is dry stay where they fell, so that only the fine organic pigment makes a ring (printed, rim over middle).
#include <catch2/catch.hpp>

#include "support/published.h"
#include "support/rehearsal_scene.h"

#include <fmt/core.h>
#include <numeric>

using namespace tidemark;
using published::Check;

namespace {

const char* const source = "González-Gutiérrez et al. 2019";
constexpr double cell_m = 1e-3, side_m = 0.016;

/// Pixels of the sheet's grey picture, 0 ... 255, that are darker than paper by more than its grain.
struct Deposit {
    double darkness = 0; ///< 255 less the mean pixel, less the paper's
    double ring = 0;     ///< pigment per area in the outer third of its radius over that in the inner two
};

Deposit dried_drop(const char* id, double percent) {
    plan::Plan p = scene::small_sheet({{id, percent}});
    p.width_m = p.height_m = side_m;
    const int middle = scene::add_band(p, "middle", 0.5 * side_m - 1e-3, 0.5 * side_m + 1e-3, 0.5 * side_m - 1e-3);
    scene::add_step(p, "drop", 0, plan::Charge{.area = middle, .mix = 1, .count = 1, .drop_m3 = 10e-9, .drop_radius_m = 3e-3});
    const auto run = scene::played(p, cell_m);
    const auto& s = run.sheet();
    const sheet::Look look = sheet::look(s, sheet::LookAs::dried);
    double cells = 0, x = 0, y = 0, grey = 0, paper = 0;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            const std::uint8_t* rgb = look.picture.at(i, j);
            const double pixel = (rgb[0] + rgb[1] + rgb[2]) / 3.0;
            if (run.record().acts.at(0).cells.touched(i, j) || s.pigment_kg_m2(0, i, j) > 0)
                ++cells, x += i, y += j, grey += pixel;
            if (i == 0 && j == 0)
                paper = pixel;
        }
    x /= cells, y /= cells;
    const double radius = std::sqrt(cells / M_PI);
    double inner = 0, inner_cells = 0, outer = 0, outer_cells = 0;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            const double r = std::hypot(i - x, j - y) / radius, kg = s.pigment_kg_m2(0, i, j);
            if (r < 2.0 / 3)
                inner += kg, ++inner_cells;
            else if (kg > 0)
                outer += kg, ++outer_cells;
        }
    return {.darkness = paper - grey / cells, .ring = (outer / outer_cells) / (inner / inner_cells)};
}

/// R² of the best D∞ (1 - exp(-c/c₀)) through the points: D∞ by least squares for each c₀ of a fine ladder.
struct Fit { double most = 0, c0 = 0, r2 = -1; };
Fit fitted(const std::vector<double>& c, const std::vector<double>& d) {
    const double mean = std::accumulate(d.begin(), d.end(), 0.0) / static_cast<double>(d.size());
    double spread = 0;
    for (const double v : d)
        spread += (v - mean) * (v - mean);
    Fit best;
    for (double c0 = 0.01; c0 < 100; c0 *= 1.02) {
        double df = 0, ff = 0, left = 0;
        for (std::size_t k = 0; k < c.size(); ++k) {
            const double f = 1 - std::exp(-c[k] / c0);
            df += d[k] * f, ff += f * f;
        }
        for (std::size_t k = 0; k < c.size(); ++k)
            left += std::pow(d[k] - df / ff * (1 - std::exp(-c[k] / c0)), 2);
        if (const double r2 = 1 - left / spread; r2 > best.r2)
            best = {df / ff, c0, r2};
    }
    return best;
}

} // namespace

TEST_CASE("gonzález-gutiérrez 2019: mean darkness of a dried drop saturates exponentially with concentration",
          "[published][rehearsal]") {
    for (const char* id : {"PB29", "PB15:3", "PBk9"}) {
        std::vector<double> percent, dark, ring;
        for (double c = 0.004; c < 10; c *= 3) {
            const Deposit drop = dried_drop(id, c);
            percent.push_back(c), dark.push_back(drop.darkness), ring.push_back(drop.ring);
        }
        const Fit fit = fitted(percent, dark);
        std::string table = fmt::format("{}: {:.0f} (1 - exp(-c / {:.2f} %)), R2 {:.3f}; darkness (ring) by %:", id, fit.most, fit.c0, fit.r2);
        for (std::size_t k = 0; k < dark.size(); ++k)
            table += fmt::format(" {:.2g}: {:.0f} ({:.1f})", percent[k], dark[k], ring[k]);
        fmt::print("{}\n", table);
        INFO(table);
        Check{"mean darkness of a dried drop against concentration: R² of an exponential that saturates", source}.at_least(0.95, fit.r2);
        CHECK(dark.back() < 1.05 * dark[dark.size() - 2]); // three times the most does little
        CHECK(dark[1] > 2 * dark[0]);                      // three times the least does nearly that
    }
}
