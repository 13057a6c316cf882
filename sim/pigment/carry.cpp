#include "pigment/carrier_detail.h"
#include "pigment/substance_detail.h"
#include "pigment/substep.h"
#include "pigment/through.h"
#include "pigment/transport_rows.h"

#include <utility>

namespace tidemark::pigment {
namespace {

using Masses = Pair<grid::Field<float>>;

/// Concentrations of the last two columns of the block to the left, as they were before it gave.
struct Seam {
    float lower[tile][2] = {}, upper[tile][2] = {};
};

/// Makes row j of a block visible to the carriers. Its own rows are raised on the way; those of the rows of tiles
/// above and below are edge rows. `more`: the next block, still unmoved, follows.
class Window {
  public:
    Window(const PigmentWorkspace& w, std::size_t k, const Piece& p, const Masses& m, Seam& seam, bool more)
        : w_(w), k_(k), edge_(w.edges[k]), p_(p), m_(m), seam_(seam), more_(more) {}

    void bring(int j, Carrier& lower, Carrier& upper) {
        const int t = p_.block.tile_row, b = p_.block.begin;
        if (j >= p_.top && j < p_.bottom)
            return bring_own(j, lower.place(j), upper.place(j));
        const int e = j < p_.top ? 4 * t + (j - p_.top) : 4 * (t + 1) + (j - p_.bottom);
        if (e < -1 || e > edge_.lower.ny())
            return;
        lower.show(j, edge_.lower.row(e) + b), upper.show(j, edge_.upper.row(e) + b);
    }

  private:
    void bring_own(int j, float* c_lower, float* c_upper) {
        const int n = p_.n, b = p_.block.begin;
        const RiseRow rise{w_.up_share.row(j) + b, w_.per_lower.row(j) + b, w_.per_upper.row(j) + b};
        float *lower = m_.lower.row(j) + b, *upper = m_.upper.row(j) + b;
        raise_row(n, rise, lower, upper, c_lower, c_upper);
        if (more_)
            look_row(2, {rise.up_share + n, rise.per_lower + n, rise.per_upper + n}, lower + n, upper + n,
                     c_lower + n, c_upper + n);
        patch_through_flow(w_, k_, j, b, more_ ? n + 2 : n, c_lower, c_upper);
        for (int i = 0; i < 2; ++i) {
            if (!more_)
                c_lower[n + i] = c_upper[n + i] = 0;
            float &l = seam_.lower[j - p_.top][i], &u = seam_.upper[j - p_.top][i];
            c_lower[i - 2] = std::exchange(l, c_lower[n - 2 + i]);
            c_upper[i - 2] = std::exchange(u, c_upper[n - 2 + i]);
        }
    }
    const PigmentWorkspace& w_;
    std::size_t k_;
    const EdgeRows& edge_;
    const Piece& p_;
    const Masses& m_;
    Seam& seam_;
    bool more_;
};

void carry_block(const PigmentWorkspace& w,
                 std::size_t k,
                 const Piece& p,
                 const Masses& m,
                 Seam& seam,
                 bool more,
                 float dt_per_dx) {
    Window window(w, k, p, m, seam, more);
    Carrier lower(w, p, true, dt_per_dx), upper(w, p, false, dt_per_dx);
    for (int j = p.top - 2; j < p.top + 2; ++j)
        window.bring(j, lower, upper);
    for (int j = p.top; j < p.bottom; ++j) {
        const Faces faces(p, j);
        if (j == p.top)
            lower.begin(faces.view()), upper.begin(faces.view());
        window.bring(j + 2, lower, upper);
        const int b = p.block.begin;
        give_row(p.n, lower.row(j, faces.view(), m.lower.row(j) + b), upper.row(j, faces.view(), m.upper.row(j) + b),
                 w.down_share.row(j) + b);
    }
}

/// A run of tiles outside which there is no concentration.
void carry_run(sheet::SheetState& s, const PigmentWorkspace& w, const Block& run, std::size_t k, float dt_per_dx) {
    const auto m = pair_of(s, k);
    Seam seam;
    for (int b = run.begin; b < run.end; b += Block::columns) {
        const int end = std::min(b + Block::columns, run.end);
        carry_block(w, k, Piece(s, {run.tile_row, b, end}), m, seam, end < run.end, dt_per_dx);
    }
}

} // namespace

void carry(sheet::SheetState& s, const PigmentWorkspace& w, const Block& strip, float dt_per_dx) {
    for (std::size_t k = 0; k < w.edges.size(); ++k)
        for (int i = strip.begin; i < strip.end;) {
            Block run{strip.tile_row, i, i};
            while (run.end < strip.end && w.filled_near(k, strip.tile_row, run.end / tile))
                run.end = std::min(strip.end, run.end + tile);
            if (run.begin < run.end)
                carry_run(s, w, run, k, dt_per_dx);
            i = run.end + tile;
        }
}

} // namespace tidemark::pigment
