#include "grid/csv.h"
#include "support/report_scene.h"

#include <catch2/catch.hpp>

using namespace report_scene;

namespace {

std::size_t files_in(const Folder& f) {
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(f.path))
        count += entry.is_regular_file();
    return count;
}

std::uint32_t big_endian(const std::string& bytes, std::size_t at) {
    std::uint32_t v = 0;
    for (int k = 0; k < 4; ++k)
        v = v << 8 | static_cast<unsigned char>(bytes[at + k]);
    return v;
}

} // namespace

TEST_CASE("a dry run leaves the sheet, the comparison and nine tables", "[law][report]") {
    const Scene s = make_scene();
    const Folder folder;
    grid::OutputFolder out(folder.path);
    report::write_outputs(s.inputs(), out);
    out.commit();
    for (const char* name :
         {"sheet.png", "value-compare.png", "edges.csv", "stretches.csv", "marks.csv", "windows.csv", "values.csv", "mixes.csv",
          "brushes.csv", "record.csv", "ledger.csv"})
        CHECK(folder.has(name));
    CHECK(files_in(folder) == 11);
}

TEST_CASE("a sheet still wet is also shown as it looks now", "[law][report]") {
    const Scene s = make_scene();
    const Folder folder;
    grid::OutputFolder out(folder.path);
    report::write_outputs(s.inputs(false), out);
    out.commit();
    CHECK(folder.has("sheet-wet.png"));
}

TEST_CASE("without a reference there is nothing to compare", "[law][report]") {
    Scene s = make_scene();
    s.plan.reference.reset();
    const Folder folder;
    grid::OutputFolder out(folder.path);
    report::write_outputs(s.inputs(), out);
    out.commit();
    CHECK_FALSE(folder.has("value-compare.png"));
    CHECK(folder.has("values.csv"));
}

TEST_CASE("the page is written beside them", "[law][report]") {
    const Scene s = make_scene();
    const Folder folder;
    grid::OutputFolder out(folder.path);
    const sheet::Look dried = sheet::look(s.sheet, sheet::LookAs::dried);
    const auto v = report::write_outputs(s.inputs(), dried, out);
    report::write_page(s.inputs(), v, dried, std::nullopt, {}, out);
    out.commit();
    CHECK(folder.has("report.html"));
    CHECK(files_in(folder) == 12);
}

TEST_CASE("a run that is stopped before commit leaves nothing, and what was there stays", "[law][report]") {
    const Scene s = make_scene();
    const Folder folder;
    std::ofstream(folder.path / "edges.csv") << "yesterday\n";
    {
        grid::OutputFolder out(folder.path);
        report::write_outputs(s.inputs(), out);
        report::write_frame(s.sheet, out);
    }
    CHECK(files_in(folder) == 1);
    CHECK(grid::read_text(folder.path / "edges.csv") == "yesterday\n");
}

TEST_CASE("sheet.png has the sheet's size on paper", "[law][report]") {
    const Scene s = make_scene();
    const Folder folder;
    grid::OutputFolder out(folder.path);
    report::write_outputs(s.inputs(), out);
    out.commit();
    const auto picture = grid::read_picture(folder.path / "sheet.png");
    const std::string bytes = grid::read_text(folder.path / "sheet.png");
    const std::size_t chunk = bytes.find("pHYs");
    REQUIRE(chunk != std::string::npos);
    CHECK(picture.width / static_cast<double>(big_endian(bytes, chunk + 4)) == Approx(40e-3));
    CHECK(picture.height / static_cast<double>(big_endian(bytes, chunk + 8)) == Approx(30e-3));
    CHECK(bytes[chunk + 12] == 1); // the unit is the metre
}

TEST_CASE("the same run writes the same bytes again", "[law][report]") {
    const Scene s = make_scene();
    const Folder one, two;
    for (const Folder* f : {&one, &two}) {
        grid::OutputFolder out(f->path);
        report::write_outputs(s.inputs(), out);
        out.commit();
    }
    for (const char* name : {"sheet.png", "value-compare.png", "edges.csv", "values.csv"})
        CHECK(grid::read_text(one.path / name) == grid::read_text(two.path / name));
}

TEST_CASE("frames are named by their time and sort by it", "[law][report]") {
    CHECK(report::frame_name(450) == "frames/0007m30s.png");
    CHECK(report::frame_name(449.9999) == "frames/0007m30s.png");
    CHECK(report::frame_name(59 * 60) < report::frame_name(60 * 60));
    CHECK(report::frame_name(99 * 60) < report::frame_name(100 * 60));
    const Scene s = make_scene();
    const Folder folder;
    grid::OutputFolder out(folder.path);
    report::write_frame(s.sheet, out);
    out.commit();
    CHECK(folder.has("frames/0030m00s.png"));
}
