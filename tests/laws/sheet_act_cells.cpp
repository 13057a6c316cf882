// The cells of an act, held for the frame they lie in, against fields of the whole sheet.
#include "grid/archive.h"
#include "grid/problem.h"
#include "sheet/act_cells.h"
#include "support/temporary_folder.h"

#include <catch2/catch.hpp>

#include <random>

using namespace tidemark;
using sheet::ActCells, sheet::CellStage, sheet::Touched;

namespace {

constexpr int nx = 60, ny = 45;
constexpr grid::ArchiveKind kind{{'T', 'E', 'S', 'T'}, 1};

struct Whole {
    grid::Field<int> how{nx, ny}, met{nx, ny, static_cast<int>(CellStage::dry)}, after_s{nx, ny};
};

void require_same(const ActCells& cells, const Whole& whole) {
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            CAPTURE(i, j);
            REQUIRE(static_cast<int>(cells.how(i, j)) == whole.how(i, j));
            REQUIRE(static_cast<int>(cells.met(i, j)) == whole.met(i, j));
            REQUIRE(static_cast<int>(cells.after_s(i, j)) == whole.after_s(i, j));
        }
}

ActCells read(grid::ArchiveWriter& out) {
    const tests::TemporaryFolder folder;
    const auto file = folder.put("cells", out.bytes());
    grid::ArchiveReader in(kind, file, "cells");
    ActCells cells;
    in(cells);
    in.finish();
    return cells;
}
ActCells read_back(const ActCells& cells) {
    grid::ArchiveWriter out(kind);
    out(cells);
    return read(out);
}

} // namespace

TEST_CASE("what an act did to a cell is the same however its frame grew", "[law][sheet]") {
    std::mt19937 random(5);
    const auto upto = [&](int n) { return std::uniform_int_distribution<int>(0, n - 1)(random); };
    for (int act = 0; act < 40; ++act) {
        ActCells cells(nx, ny);
        Whole whole;
        const int wide = 1 + upto(nx), high = 1 + upto(ny), i0 = upto(nx - wide + 1), j0 = upto(ny - high + 1);
        for (int k = 0; k < 300; ++k) {
            const int i = i0 + upto(wide), j = j0 + upto(high), s = upto(90000);
            if (k % 7 == 0) {
                cells.touch(i, j, Touched::at_left_edge), whole.how(i, j) = 2;
            } else {
                const auto stage = static_cast<CellStage>(upto(4));
                cells.meet(i, j, stage, s + 0.9);
                whole.how(i, j) = 1, whole.met(i, j) = static_cast<int>(stage), whole.after_s(i, j) = std::min(s, 65535);
            }
        }
        require_same(cells, whole);
        require_same(read_back(cells), whole);
        cells.fit();
        require_same(cells, whole);
        require_same(read_back(cells), whole);
        sheet::CellFrame box{nx, ny, 0, 0};
        for (int j = 0; j < ny; ++j)
            for (int i = 0; i < nx; ++i)
                if (whole.how(i, j) != 0)
                    box = {std::min(box.i0, i), std::min(box.j0, j), std::max(box.i1, i + 1), std::max(box.j1, j + 1)};
        const sheet::CellFrame f = cells.frame();
        CHECK((f.i0 == box.i0 && f.j0 == box.j0 && f.i1 == box.i1 && f.j1 == box.j1));
    }
}

TEST_CASE("an act that touched nothing knows of no cell, and one of no sheet knows nothing", "[law][sheet]") {
    ActCells none(nx, ny);
    none.fit();
    CHECK((none.known() && none.frame().empty()));
    CHECK_FALSE(read_back(none).touched(3, 3));
    CHECK_FALSE(ActCells().known());
    CHECK(ActCells().met(2, 2) == CellStage::dry);
}

TEST_CASE("cells read from a file are refused when their frame is not one of the sheet's", "[law][sheet]") {
    struct File {
        int i0 = 4, j0 = 2, i1 = 8, j1 = 5;
        int how_nx = 4, met_nx = 4, after_nx = 4;
        std::uint8_t how = 1, met = 3;
    };
    const auto of = [](const File& f) {
        grid::ArchiveWriter out(kind);
        const int numbers[6] = {nx, ny, f.i0, f.j0, f.i1, f.j1};
        const grid::Field<std::uint8_t> how(f.how_nx, 3, f.how), met(f.met_nx, 3, f.met);
        const grid::Field<std::uint16_t> after_s(f.after_nx, 3);
        out(numbers, how, met, after_s);
        return read(out);
    };
    CHECK(of({}).touched(5, 3));
    for (const File& f : {File{.how_nx = 5}, File{.met_nx = 3}, File{.after_nx = 3}, File{.how = 3}, File{.met = 4},
                          File{.i0 = -1, .i1 = 3}, File{.i0 = 58, .i1 = 62}, File{.i0 = 8, .i1 = 4}, File{.j0 = -1, .j1 = 2},
                          File{.j0 = 43, .j1 = 46}, File{.j0 = 5, .j1 = 2}, File{.j1 = 6}})
        CHECK_THROWS_AS(of(f), grid::BadInput);
}
