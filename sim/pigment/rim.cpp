#include "pigment/rim.h"

#include "pigment/substance_detail.h"
#include "pigment/transport.h"

#include <algorithm>
#include <map>
#include <utility>

namespace tidemark::pigment {
namespace {

struct Halves {
    double lower = 0, upper = 0;
};

/// What leaves a cell of this depth with `water_m`; `has` is lessened, and what rises has risen.
Halves give(Halves& has, double depth_m, double water_m) {
    if (depth_m <= 0 || water_m <= 0)
        return {};
    const double half = 0.5 * depth_m, rise = std::min(half_excess * water_m, half);
    const double risen = has.lower * (rise / half);
    has.lower -= risen, has.upper += risen;
    const double lower = rise < half ? std::min(1.0, lower_share * water_m / (half - rise)) : 1.0;
    const double upper = std::min(1.0, upper_share * water_m / (half + rise));
    const Halves given{has.lower * lower, has.upper * upper};
    has.lower -= given.lower, has.upper -= given.upper;
    return given;
}

/// What comes into a cell of this depth with `water_m`, and what then sinks.
void take(Halves& has, const Halves& comes, double depth_m, double water_m) {
    has.lower += comes.lower, has.upper += comes.upper;
    const double upper_m = 0.5 * depth_m + upper_share * water_m;
    if (upper_m <= 0)
        return;
    const double sinks = has.upper * std::min(1.0, half_excess * water_m / upper_m);
    has.upper -= sinks, has.lower += sinks;
}

} // namespace

void RimCarriage::begin(const sheet::SheetState& s, const std::vector<sheet::RimFace>& rim, double dt_s) {
    substances_ = s.pigments.size() + 1, dt_s_ = dt_s;
    promised_.assign(rim.size() * substances_, {});
    passed_.assign(rim.size() * substances_, 0);
    struct Outer {
        double depth_m;
        std::vector<Halves> has;
    };
    std::map<std::pair<int, int>, Outer> outers; // only cells that give
    for (std::size_t n = 0; n < rim.size(); ++n) {
        const sheet::RimFace& f = rim[n];
        const double water_m = -f.out(static_cast<double>(f.given_m2_s)) * dt_s / s.geometry.cell_m;
        if (water_m <= 0)
            continue;
        const int i = f.outer_i(), j = f.outer_j();
        auto [at, is_new] = outers.try_emplace({i, j});
        Outer& outer = at->second;
        if (is_new) {
            outer.depth_m = s.film_before_m(i, j);
            for (std::size_t k = 0; k < substances_; ++k) {
                const auto m = pair_of(s, k);
                outer.has.push_back({m.lower(i, j), m.upper(i, j)});
            }
        }
        for (std::size_t k = 0; k < substances_; ++k) {
            const Halves given = give(outer.has[k], outer.depth_m, water_m);
            promised_[n * substances_ + k] = {given.lower, given.upper};
        }
        outer.depth_m = std::max(0.0, outer.depth_m - water_m);
    }
}

void RimCarriage::pass(sheet::SheetState& s, const std::vector<sheet::RimFace>& rim, double dt_s) {
    for (std::size_t n = 0; n < rim.size(); ++n) {
        const sheet::RimFace& f = rim[n];
        const int i = f.inner_i(), j = f.inner_j();
        const double out_m = f.out(static_cast<double>(f.passing_m2_s)) * dt_s / s.geometry.cell_m;
        if (out_m == 0)
            continue;
        float& depth = s.film_before_m(i, j);
        for (std::size_t k = 0; k < substances_; ++k) {
            const auto m = pair_of(s, k);
            double& passed = passed_[n * substances_ + k];
            Halves has{m.lower(i, j), m.upper(i, j)};
            const double had = has.lower + has.upper;
            if (out_m > 0) {
                if (had == 0)
                    continue;
                give(has, depth, out_m);
            } else {
                const Amount& all = promised_[n * substances_ + k];
                if (had == 0 && all.lower + all.upper == 0)
                    continue;
                take(has, {all.lower * (dt_s / dt_s_), all.upper * (dt_s / dt_s_)}, depth, -out_m);
                if (k < s.pigments.size() && s.pigments[k].tiles.tiles_x() > 0)
                    s.pigments[k].tiles.wake_cell(i, j);
            }
            const float lower = static_cast<float>(has.lower), upper = static_cast<float>(has.upper);
            // What was not kept has passed: so rounding loses nothing.
            passed += (static_cast<double>(lower) - m.lower(i, j)) + (static_cast<double>(upper) - m.upper(i, j));
            m.lower(i, j) = lower, m.upper(i, j) = upper;
        }
        depth = std::max(0.0f, static_cast<float>(depth - out_m));
    }
}

void RimCarriage::end(sheet::SheetState& s, const std::vector<sheet::RimFace>& rim) {
    for (std::size_t n = 0; n < rim.size(); ++n) {
        const sheet::RimFace& f = rim[n];
        const int i = f.outer_i(), j = f.outer_j();
        const double in_m = f.out(f.passed_m);
        float& depth = s.film_before_m(i, j);
        for (std::size_t k = 0; k < substances_; ++k) {
            const auto m = pair_of(s, k);
            const double left = -passed_[n * substances_ + k]; // positive: has come out of the part
            Halves has{m.lower(i, j), m.upper(i, j)};
            if (left == 0)
                continue;
            if (left > 0) {
                // In the shares in which water runs.
                take(has, {lower_share * left, upper_share * left}, depth, std::max(in_m, 0.0));
                if (k < s.pigments.size() && s.pigments[k].tiles.tiles_x() > 0)
                    s.pigments[k].tiles.wake_cell(i, j);
            } else {
                const Amount& p = promised_[n * substances_ + k];
                const double all = p.lower + p.upper, share = all > 0 ? p.lower / all : 0.5;
                const double rise = has.lower * std::min(1.0, depth > 0 ? half_excess * -in_m / (0.5 * depth) : 0.0);
                has.lower -= rise, has.upper += rise;
                has.lower += share * left, has.upper += (1 - share) * left;
                if (has.lower < 0)
                    has.upper += has.lower, has.lower = 0;
                if (has.upper < 0)
                    has.lower = std::max(0.0, has.lower + has.upper), has.upper = 0;
            }
            m.lower(i, j) = static_cast<float>(has.lower), m.upper(i, j) = static_cast<float>(has.upper);
        }
        depth = std::max(0.0f, static_cast<float>(depth + in_m));
    }
}

} // namespace tidemark::pigment
