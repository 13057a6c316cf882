/// Fluxes of one half of one substance through the faces of a block (transport.h). Private to the room.
#pragma once
#include "pigment/faces_detail.h"
#include "pigment/transport.h"

#include <cstddef>
#include <utility>

namespace tidemark::pigment {

/// Face values of one row of cells of a block, cell i at [i + 1]; cleared where there is no row, behind a closed
/// face.
struct FaceBuffer {
    Buffer far, near, heft;
    void clear() { far.fill(0), near.fill(0), heft.fill(0); }
    FaceRow at(int cell) { return {far.data() + 1 + cell, near.data() + 1 + cell, heft.data() + 1 + cell}; }
};

/// Second half of a sub-step for one half of one substance: fluxes of the block, row by row.
class Carrier {
  public:
    Carrier(const PigmentWorkspace& w, const Piece& p, const grid::Field<float>& c, bool lower, float dt_per_dx)
        : w_(w), p_(p), c_(c), per_(lower ? w.per_lower : w.per_upper), share_(lower ? lower_share : upper_share),
          scale_(share_ * dt_per_dx) {
        if (p.top > 0)
            slope_y(p.top - 1, *row_);
        else
            row_->clear();
        slope_y(p.top, *next_);
    }
    /// Rows must come in order from the top.
    void row(int j, const RowFaces& f, float* mass) {
        if (j == p_.top)
            flux_row(p_.n, f.above, scale_, row_->at(0), next_->at(0), above_.data());
        std::swap(row_, next_);
        if (j + 1 < p_.s.film_m.ny())
            slope_y(j + 1, *next_);
        else
            next_->clear();
        flux_row(p_.n, f.below, scale_, row_->at(0), next_->at(0), below_.data());
        slope_x(j);
        flux_row(p_.n + 1, f.left, scale_, x_.at(-1), x_.at(0), across_.data());
        give_row(p_.n, across_.data(), above_.data(), below_.data(), mass);
        std::swap(above_, below_);
    }

  private:
    HalfRow around(const float* c, const float* per, std::ptrdiff_t step, int j, int i) const {
        return {c,
                c - step,
                c + step,
                per,
                per - step,
                per + step,
                w_.out_m.row(j) + i,
                p_.s.film_before_m.row(j) + i,
                share_};
    }
    void slope_y(int j, FaceBuffer& out) {
        const int b = p_.block.begin;
        slope_row(p_.n, around(c_.row(j) + b, per_.row(j) + b, c_.stride(), j, b), out.at(0));
    }
    void slope_x(int j) {
        const int b = p_.block.begin - 1;
        slope_row(p_.n + 2, around(c_.row(j) + b, per_.row(j) + b, 1, j, b), x_.at(-1));
    }

    const PigmentWorkspace& w_;
    const Piece& p_;
    const grid::Field<float>&c_, &per_;
    float share_, scale_;
    FaceBuffer one_, other_, x_;
    FaceBuffer *row_ = &one_, *next_ = &other_;
    Buffer above_, below_, across_;
};

} // namespace tidemark::pigment
