/// The cells that an act came to: what it did there, in what stage it met them, and when.
///
/// Held for the smallest frame that has them all in it, so that thousands of drops on a large sheet cost no more than the
/// drops are wide. While an act is at work its frame has some room to grow; fit() takes that away.
/// Indices are the sheet's. Any cell of it may be asked for, one outside the frame is as one that was not touched.
#pragma once
#include <algorithm>
#include <cstdint>

#include "grid/field.h"
#include "sheet/stage.h"

namespace tidemark::sheet {

/// What an act did to a cell first.
enum class Touched : std::uint8_t {
    no = 0,
    yes = 1,
    at_left_edge = 2 ///< a wash, beside an edge of its own that had no film left
};

/// Columns i0 ... i1 - 1 of rows j0 ... j1 - 1; i0 == i1: none.
struct CellFrame {
    int i0 = 0, j0 = 0, i1 = 0, j1 = 0;
    bool empty() const { return i0 == i1 || j0 == j1; }
    bool has(int i, int j) const { return i >= i0 && i < i1 && j >= j0 && j < j1; }
    bool meets(const CellFrame& o) const { return i0 < o.i1 && o.i0 < i1 && j0 < o.j1 && o.j0 < j1; }
};

class ActCells {
  public:
    static constexpr std::uint16_t longest_after_s = 65535; ///< 18 hours

    ActCells() = default;                        ///< nothing is known of what was touched
    ActCells(int nx, int ny) : nx_(nx), ny_(ny) {}   ///< of a sheet of so many cells, none of which was touched

    bool known() const { return nx_ > 0; }
    int nx() const { return nx_; } ///< of the sheet
    int ny() const { return ny_; }
    const CellFrame& frame() const { return frame_; } ///< every touched cell is in it

    Touched how(int i, int j) const {
        return frame_.has(i, j) ? static_cast<Touched>(how_(i - frame_.i0, j - frame_.j0)) : Touched::no;
    }
    bool touched(int i, int j) const { return how(i, j) != Touched::no; }
    /// Stage the cell was in just before it was touched; dry: it was not, or it was touched from below.
    CellStage met(int i, int j) const {
        return frame_.has(i, j) ? static_cast<CellStage>(met_(i - frame_.i0, j - frame_.j0)) : CellStage::dry;
    }
    /// When the cell was first touched: whole seconds after the act began, rounded down, at most longest_after_s.
    std::uint16_t after_s(int i, int j) const {
        return frame_.has(i, j) ? after_s_(i - frame_.i0, j - frame_.j0) : std::uint16_t{0};
    }

    /// The cell must be one of the sheet's. What it met and when stays as it was said first.
    void touch(int i, int j, Touched);
    void meet(int i, int j, CellStage, double after_s, Touched = Touched::yes);
    void fit(); ///< the frame is that of the touched cells, no wider

    /// For grid/archive.h. Read cells are looked through: BadInput where they are no such frame of such a sheet.
    template <class A, class Self> static void archive(A& a, Self& self) {
        auto& [nx, ny, frame, how, met, after_s] = self;
        a(nx, ny, frame.i0, frame.j0, frame.i1, frame.j1, how, met, after_s);
        if constexpr (A::reads) self.require_sound(a);
    }

  private:
    int nx_ = 0, ny_ = 0;
    CellFrame frame_;
    grid::Field<std::uint8_t> how_; ///< Touched, of the frame's cells, as the next two
    grid::Field<std::uint8_t> met_; ///< CellStage
    grid::Field<std::uint16_t> after_s_;

    void reach(int i, int j);
    void reframe(const CellFrame&);
    template <class A> void require_sound(A& a) const {
        const CellFrame& f = frame_;
        a.require(f.i0 >= 0 && f.j0 >= 0 && f.i0 <= f.i1 && f.j0 <= f.j1 && f.i1 <= nx_ && f.j1 <= ny_);
        const auto fits = [&](const auto& field) {
            a.require(field.nx() == (f.empty() ? 0 : f.i1 - f.i0) && field.ny() == (f.empty() ? 0 : f.j1 - f.j0));
        };
        fits(how_), fits(met_), fits(after_s_);
        constexpr int most_how = static_cast<int>(Touched::at_left_edge), most_met = static_cast<int>(CellStage::dry);
        for (int j = 0; j < how_.ny(); ++j)
            for (int i = 0; i < how_.nx(); ++i) a.require(how_(i, j) <= most_how && met_(i, j) <= most_met);
    }
};

} // namespace tidemark::sheet
