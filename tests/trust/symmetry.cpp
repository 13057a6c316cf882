#include "trust/symmetry.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "trust/random_plan.h"

namespace tidemark::trust {
namespace {

// Found (random_plans --seed 1 --plans 100): median 0.00012, 9 of 10 plans below 0.001, worst 0.022, where a contact line held on
// one sheet and gave way on the other. Five to eight times that: dice of other seeds may fall worse.
constexpr double single_most = 0.1, median_most = 1e-3, towards_sigmas = 4;

/// Where cell (i, j) of the plain sheet is found on the other one.
struct Place { int i, j; };
Place at(const sheet::Geometry& plain, Way way, int i, int j) {
    return way == Way::mirror ? Place{plain.nx - 1 - i, j} : Place{plain.ny - 1 - j, i};
}

double median(std::vector<double> all) {
    std::sort(all.begin(), all.end());
    return all.empty() ? 0 : all[all.size() / 2];
}

double share_at(std::vector<double> all, double part) {
    std::sort(all.begin(), all.end());
    return all.empty() ? 0 : all[std::min(all.size() - 1, static_cast<std::size_t>(part * static_cast<double>(all.size())))];
}

/// A mean over its standard error.
double sigmas(const std::vector<double>& all) {
    const double n = static_cast<double>(all.size());
    double sum = 0, square = 0;
    for (const double x : all) sum += x, square += x * x;
    return n < 8 || square <= 0 ? 0 : sum / std::sqrt(square);
}

} // namespace

plan::Plan seen(const plan::Plan& p, Way way) { return way == Way::mirror ? mirrored(p) : turned(p); }

void exchange_paper(rehearsal::Rehearsal& run, const sheet::SheetState& plain, Way way) {
    // A plan can't ask for it: felt is made of its seed, from the top left on. The run itself is no constant.
    auto& relief = const_cast<sheet::SheetState&>(run.sheet()).relief_m;
    for (int j = 0; j < plain.geometry.ny; ++j)
        for (int i = 0; i < plain.geometry.nx; ++i) {
            const Place there = at(plain.geometry, way, i, j);
            relief(there.i, there.j) = plain.relief_m(i, j);
        }
}

std::string Asymmetry::text() const { return fmt::format("{:.5f} ({:+.4f}, {:+.4f} mm)", share, x_mm, y_mm); }

Asymmetry asymmetry(const sheet::SheetState& plain, const sheet::SheetState& other, Way way) {
    double all = 0, differs = 0, x = 0, y = 0;
    for (std::size_t p = 0; p < plain.pigments.size(); ++p)
        for (int j = 0; j < plain.geometry.ny; ++j)
            for (int i = 0; i < plain.geometry.nx; ++i) {
                const Place there = at(plain.geometry, way, i, j);
                const double here = plain.pigment_kg_m2(p, i, j), d = here - other.pigment_kg_m2(p, there.i, there.j);
                all += here, differs += std::abs(d), x += i * d, y += j * d;
            }
    if (all <= 0) return {};
    const double mm = 1e3 * plain.geometry.cell_m / all;
    return {0.5 * differs / all, x * mm, y * mm};
}

std::string Symmetries::add(const char* name, const Asymmetry& a) {
    shares_.push_back(a.share), xs_.push_back(a.x_mm), ys_.push_back(a.y_mm);
    return a.share <= single_most ? std::string() : fmt::format("{}: {:.2g} of the pigment lies elsewhere; allowed: {:g}", name, a.share, single_most);
}

std::string Symmetries::fault() const {
    if (count() < 8) return {};
    if (const double m = median(shares_); m > median_most) return fmt::format("half of the plans differ by {:.2g} or more; allowed: {:g}", m, median_most);
    for (const auto& [axis, all] : {std::pair<const char*, const std::vector<double>&>{"x", xs_}, {"y", ys_}})
        if (const double s = sigmas(all); std::abs(s) > towards_sigmas)
            return fmt::format("pigment goes one way along {}: {:.1f} standard errors; allowed: {:g}", axis, s, towards_sigmas);
    return {};
}

std::string Symmetries::text() const {
    return fmt::format("of the pigment lies elsewhere: median {:.2g}, 9 of 10 plans {:.2g}, 99 of 100 {:.2g}, worst {:.2g}; to one side {:+.1f}, {:+.1f} "
                       "standard errors",
                       median(shares_), share_at(shares_, 0.9), share_at(shares_, 0.99), share_at(shares_, 1), sigmas(xs_), sigmas(ys_));
}

} // namespace tidemark::trust
