// What becomes of outputs when things go wrong: a run that was killed, two runs at once, links in the folder.
#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

#include "grid/files.h"
#include "grid/problem.h"
#include "support/temporary_folder.h"

using namespace tidemark;
namespace fs = std::filesystem;

namespace {

int hidden(const fs::path& folder) {
    int count = 0;
    for (const auto& entry : fs::directory_iterator(folder)) count += entry.path().filename().string().rfind(".tidemark-", 0) == 0;
    return count;
}

/// Writes and is killed before its commit.
void killed_run(const fs::path& folder) {
    const pid_t child = fork();
    if (child == 0) {
        grid::OutputFolder out(folder);
        out.write("sheet.png", std::string_view("half"));
        kill(getpid(), SIGKILL);
    }
    int status = 0;
    waitpid(child, &status, 0);
    REQUIRE(WIFSIGNALED(status));
}

} // namespace

TEST_CASE("what a killed run left goes with the next run, what a living one holds stays", "[law][grid]") {
    const tests::TemporaryFolder folder;
    killed_run(folder.path());
    REQUIRE(hidden(folder.path()) == 1);
    CHECK_FALSE(fs::exists(folder.path() / "sheet.png"));
    grid::OutputFolder one(folder.path());
    CHECK(hidden(folder.path()) == 1); // its own
    one.write("sheet.png", std::string_view("one"));
    grid::OutputFolder two(folder.path());
    two.write("sheet.png", std::string_view("two"));
    CHECK(hidden(folder.path()) == 2);
    one.commit();
    CHECK(grid::read_text(folder.path() / "sheet.png") == "one");
    two.commit();
    CHECK(grid::read_text(folder.path() / "sheet.png") == "two");
    CHECK(hidden(folder.path()) == 0);
}

TEST_CASE("a hidden folder of somebody else stays, and so does what is not ours in one", "[law][grid]") {
    const tests::TemporaryFolder folder;
    fs::create_directories(folder.path() / ".tidemark-notes");
    fs::create_directories(folder.path() / ".tidemark-abcdef");
    folder.put(".tidemark-abcdef/letter.txt", std::string("mine"));
    folder.put(".tidemark-abcdef/7", std::string("waited"));
    grid::OutputFolder(folder.path());
    CHECK(fs::exists(folder.path() / ".tidemark-notes"));
    CHECK(fs::exists(folder.path() / ".tidemark-abcdef/letter.txt"));
    CHECK_FALSE(fs::exists(folder.path() / ".tidemark-abcdef/7"));
}

TEST_CASE("nothing is written through a link: a linked file is replaced, a linked subfolder refused", "[wrong][grid]") {
    const tests::TemporaryFolder folder, elsewhere;
    elsewhere.put("mine", std::string("mine"));
    fs::create_symlink(elsewhere.path() / "mine", folder.path() / "sheet.png");
    fs::create_directory_symlink(elsewhere.path(), folder.path() / "frames");
    grid::OutputFolder out(folder.path());
    CHECK_THROWS_WITH(out.write("frames/0001.png", std::string_view("x")), Catch::EndsWith("frames: is a link; nothing is written through it"));
    out.write("sheet.png", std::string_view("sheet"));
    out.commit();
    CHECK(grid::read_text(elsewhere.path() / "mine") == "mine");
    CHECK_FALSE(fs::is_symlink(folder.path() / "sheet.png"));
    CHECK(std::distance(fs::directory_iterator(elsewhere.path()), fs::directory_iterator()) == 1);
}

TEST_CASE("the painter may name a linked folder", "[law][grid]") {
    const tests::TemporaryFolder folder, elsewhere;
    fs::create_directory_symlink(elsewhere.path(), folder.path() / "results");
    grid::OutputFolder out(folder.path() / "results/");
    out.write("sheet.png", std::string_view("sheet"));
    out.commit();
    CHECK(fs::exists(elsewhere.path() / "sheet.png"));
}

TEST_CASE("a folder in the place of a file is refused before anything is in place", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    fs::create_directories(folder.path() / "sheet.png");
    grid::OutputFolder out(folder.path());
    out.write("edges.csv", std::string_view("x"));
    CHECK_THROWS_WITH(out.write("sheet.png", std::string_view("x")), Catch::EndsWith("sheet.png: can't be written: Is a directory"));
    CHECK_FALSE(fs::exists(folder.path() / "edges.csv"));
}

TEST_CASE("a run waits for its turn while another puts its files in place", "[law][grid]") {
    const tests::TemporaryFolder folder;
    grid::OutputFolder out(folder.path());
    out.write("sheet.png", std::string_view("x"));
    const int held = open(folder.path().c_str(), O_RDONLY | O_DIRECTORY);
    REQUIRE(flock(held, LOCK_EX) == 0);
    const pid_t child = fork(); // keeps the lock for a moment, as another run would
    if (child == 0) {
        usleep(100000);
        _exit(fs::exists(folder.path() / "sheet.png") ? 1 : 0);
    }
    close(held);
    out.commit();
    int status = 0;
    waitpid(child, &status, 0);
    CHECK(WEXITSTATUS(status) == 0);
    CHECK(fs::exists(folder.path() / "sheet.png"));
}
