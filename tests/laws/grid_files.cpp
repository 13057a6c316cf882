#include <catch2/catch.hpp>
#include <cstdlib>

#include "grid/files.h"
#include "grid/problem.h"
#include "support/temporary_folder.h"

using namespace tidemark;
namespace fs = std::filesystem;

namespace {

long entries(const fs::path& folder) {
    return std::distance(fs::recursive_directory_iterator(folder), fs::recursive_directory_iterator());
}

} // namespace

TEST_CASE("outputs appear together, at the commit", "[law][grid]") {
    const tests::TemporaryFolder folder;
    const fs::path out = folder.path() / "run" / "one";
    grid::OutputFolder outputs(out);
    outputs.write("report.csv", std::string_view("a,b\n"));
    outputs.write("frames/0001.png", std::string_view("png"));
    CHECK_FALSE(fs::exists(out / "report.csv"));
    CHECK_FALSE(fs::exists(out / "frames/0001.png"));
    outputs.commit();
    CHECK(grid::read_text(out / "report.csv") == "a,b\n");
    CHECK(grid::read_text(out / "frames/0001.png") == "png");
    CHECK(entries(out) == 3); // two files and a folder: nothing temporary stays
}

TEST_CASE("without a commit the old outputs stay as they were", "[law][grid]") {
    const tests::TemporaryFolder folder;
    folder.put("report.csv", std::string("old"));
    {
        grid::OutputFolder outputs(folder.path());
        outputs.write("report.csv", std::string_view("new"));
        outputs.write("extra.csv", std::string_view("new"));
        CHECK(entries(folder.path()) == 4); // the old one; two that wait, and the folder where they do
    }
    CHECK(grid::read_text(folder.path() / "report.csv") == "old");
    CHECK(entries(folder.path()) == 1);
    grid::OutputFolder outputs(folder.path());
    outputs.write("report.csv", std::string_view("new"));
    outputs.commit();
    CHECK(grid::read_text(folder.path() / "report.csv") == "new");
}

TEST_CASE("a folder that can't be made is refused before the run", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    const fs::path file = folder.put("taken", std::string("a file"));
    CHECK_THROWS_AS(grid::OutputFolder(file), grid::IoError);
    CHECK_THROWS_AS(grid::OutputFolder(file / "below"), grid::IoError);
    CHECK_THROWS_WITH(grid::OutputFolder("/proc/tidemark"), Catch::StartsWith("/proc/tidemark: can't "));
}

TEST_CASE("a file that can't be read is named with the reason", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    const std::string gone = (folder.path() / "gone.toml").string();
    CHECK_THROWS_WITH(grid::read_text(gone), gone + ": no such file");
    CHECK_THROWS_WITH(grid::read_text(folder.path()), folder.path().string() + ": is a folder; allowed: a file");
    const fs::path large = folder.put("large.csv", std::string(101, 'x'));
    CHECK(grid::read_text(large, 101).size() == 101);
    CHECK_THROWS_WITH(grid::read_text(large, 100),
                      large.string() + ": the file is too large; allowed: at most 100 bytes");
    CHECK_THROWS_AS(grid::read_text("/dev/zero", 1 << 20), grid::BadInput); // no end, but a limit
}

TEST_CASE("presets are taken from where the user says, or the place is named", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    folder.put("papers.csv", std::string("id\n"));
    setenv("TIDEMARK_PRESETS", folder.path().c_str(), 1);
    CHECK(grid::presets_folder() == folder.path());
    setenv("TIDEMARK_PRESETS", "/nowhere", 1);
    CHECK_THROWS_WITH(grid::presets_folder(), "TIDEMARK_PRESETS is /nowhere, and no papers.csv is in there");
    unsetenv("TIDEMARK_PRESETS");
    try { // a build tree has none beside the tests, unless they are laid there
        const fs::path found = grid::presets_folder();
        CHECK(fs::exists(found / "papers.csv"));
    } catch (const grid::IoError& error) {
        CHECK_THAT(error.what(), Catch::Contains("share/tidemark/presets") && Catch::Contains("set TIDEMARK_PRESETS"));
    }
}
