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
        const sheet::CellFrame f = cells.frame();
        CHECK((f.i0 >= i0 && f.j0 >= j0 && f.i1 <= i0 + wide && f.j1 <= j0 + high));
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
    const auto of = [](int i0, int i1, int fields_nx, int stage) {
        grid::ArchiveWriter out(kind);
        const int numbers[6] = {nx, ny, i0, 2, i1, 5};
        const grid::Field<std::uint8_t> how(fields_nx, 3, 1), met(fields_nx, 3, static_cast<std::uint8_t>(stage));
        const grid::Field<std::uint16_t> after_s(fields_nx, 3);
        out(numbers, how, met, after_s);
        return read(out);
    };
    CHECK(of(4, 8, 4, 3).touched(5, 3));
    CHECK_THROWS_AS(of(4, 8, 5, 3), grid::BadInput);
    CHECK_THROWS_AS(of(-1, 3, 4, 3), grid::BadInput);
    CHECK_THROWS_AS(of(58, 62, 4, 3), grid::BadInput);
    CHECK_THROWS_AS(of(8, 4, 4, 3), grid::BadInput);
    CHECK_THROWS_AS(of(4, 8, 4, 4), grid::BadInput);
}
