#include "sheet/act_cells.h"

namespace tidemark::sheet {

namespace {

constexpr int least_room = 8; ///< cells

/// What was kept for one frame, for another; cells that only the new one has get `otherwise`.
template <class T> void move_to(grid::Field<T>& kept, const CellFrame& from, const CellFrame& to, T otherwise) {
    grid::Field<T> moved;
    if (!to.empty())
        moved.resize(to.i1 - to.i0, to.j1 - to.j0, otherwise);
    const int i0 = std::max(from.i0, to.i0), i1 = std::min(from.i1, to.i1);
    for (int j = std::max(from.j0, to.j0); i0 < i1 && j < std::min(from.j1, to.j1); ++j)
        std::copy_n(kept.row(j - from.j0) + (i0 - from.i0), i1 - i0, moved.row(j - to.j0) + (i0 - to.i0));
    kept = std::move(moved);
}

} // namespace

void ActCells::reframe(const CellFrame& to) {
    move_to(how_, frame_, to, static_cast<std::uint8_t>(Touched::no));
    move_to(met_, frame_, to, static_cast<std::uint8_t>(CellStage::dry));
    move_to(after_s_, frame_, to, std::uint16_t{0});
    frame_ = to;
}

/// Half as wide again to the side it grows to, so that an act that goes over a sheet cell by cell is not copied for each.
void ActCells::reach(int i, int j) {
    if (frame_.has(i, j))
        return;
    CellFrame f = frame_.empty() ? CellFrame{i, j, i + 1, j + 1} : frame_;
    const int room_x = std::max(least_room, (f.i1 - f.i0) / 2), room_y = std::max(least_room, (f.j1 - f.j0) / 2);
    if (i < f.i0) f.i0 = std::max(0, i - room_x);
    if (j < f.j0) f.j0 = std::max(0, j - room_y);
    if (i >= f.i1) f.i1 = std::min(nx_, i + 1 + room_x);
    if (j >= f.j1) f.j1 = std::min(ny_, j + 1 + room_y);
    reframe(f);
}

void ActCells::touch(int i, int j, Touched how) {
    reach(i, j);
    how_(i - frame_.i0, j - frame_.j0) = static_cast<std::uint8_t>(how);
}

void ActCells::meet(int i, int j, CellStage met, double after_s, Touched how) {
    touch(i, j, how);
    met_(i - frame_.i0, j - frame_.j0) = static_cast<std::uint8_t>(met);
    after_s_(i - frame_.i0, j - frame_.j0) = static_cast<std::uint16_t>(std::clamp(after_s, 0.0, double{longest_after_s}));
}

void ActCells::fit() {
    CellFrame f{nx_, ny_, 0, 0};
    for (int j = frame_.j0; j < frame_.j1; ++j)
        for (int i = frame_.i0; i < frame_.i1; ++i)
            if (touched(i, j))
                f = {std::min(f.i0, i), std::min(f.j0, j), std::max(f.i1, i + 1), std::max(f.j1, j + 1)};
    reframe(f.i1 == 0 ? CellFrame{} : f);
}

} // namespace tidemark::sheet
