/// Fluxes of one half of one substance through the faces of a block (transport.h). Private to the room.
#pragma once
#include "pigment/faces_detail.h"
#include "pigment/transport.h"

#include <utility>

namespace tidemark::pigment {

/// A row of a block, with room for two cells on either side; at(0) is the block's first cell.
struct Row {
    Buffer cells;
    float* at(int i) { return cells.data() + 2 + i; }
};

/// Second half of a sub-step for one half of one substance: fluxes of a block, row by row from the top. Before row j
/// is asked for, rows up to j + 2 must have been placed or shown, those in the sheet and the row around it.
class Carrier {
  public:
    Carrier(const PigmentWorkspace& w, const Piece& p, bool lower, float dt_per_dx)
        : w_(w), p_(p), per_(lower ? w.per_lower : w.per_upper), share_(lower ? lower_share : upper_share),
          scale_(share_ * dt_per_dx) {}
    /// Where the concentrations of row j are to be written, two cells beyond the block's ends.
    float* place(int j) {
        c_[j & 3] = ring_[j & 3].at(0);
        return ring_[j & 3].at(0);
    }
    /// Row j is to be seen here.
    void show(int j, const float* c) { c_[j & 3] = c; }
    /// What passes the upper faces of the top row; needs rows up to top + 1.
    void begin(const RowFaces& f) {
        look(p_.top - 1, *here_);
        look(p_.top, *next_);
        flux_row(p_.n, f.above, scale_, side(p_.top - 1, here_->down, 0), side(p_.top, next_->down, 0),
                 below_->at(0));
    }
    /// What passes the faces of row j; holds until the next row.
    GiveRow row(int j, const RowFaces& f, float* mass) {
        std::swap(here_, next_);
        std::swap(above_, below_);
        look(j + 1, *next_);
        flux_row(p_.n, f.below, scale_, side(j, here_->down, 0), side(j + 1, next_->down, 0), below_->at(0));
        flux_row(p_.n + 1, f.left, scale_, side(j, here_->across, -1), side(j, here_->across, 0), across_.at(0));
        return {across_.at(0), above_->at(0), below_->at(0), mass};
    }

  private:
    struct Slopes {
        Row across, down;
    };
    /// From the cell left of the block to the one right of it. Outside the sheet all is flat, and its faces are
    /// closed.
    void look(int j, Slopes& slopes) {
        if (j < 0 || j >= per_.ny()) {
            slopes.down.cells.fill(0);
            return;
        }
        const int b = p_.block.begin - 1;
        const HalfRow row{c_[j & 3] - 1,       c_[(j - 1) & 3] - 1, c_[(j + 1) & 3] - 1, per_.row(j) + b,
                          per_.row(j - 1) + b, per_.row(j + 1) + b, w_.out_m.row(j) + b, share_};
        slope_row(p_.n + 2, row, slopes.across.at(-1), slopes.down.at(-1));
    }
    FaceSide side(int j, Row& rise, int first) const {
        return {c_[j & 3] + first, rise.at(first), p_.s.film_before_m.row(j) + p_.block.begin + first};
    }

    const PigmentWorkspace& w_;
    const Piece& p_;
    const grid::Field<float>& per_;
    float share_, scale_;
    std::array<Row, 4> ring_;
    std::array<const float*, 4> c_{};
    Slopes one_, other_;
    Slopes *here_ = &one_, *next_ = &other_;
    Row first_, second_, across_;
    Row *above_ = &first_, *below_ = &second_;
};

} // namespace tidemark::pigment
