// Where masks and pictures may lie, of a plan and of a lesson that somebody else wrote.
#include "grid/files.h"
#include "grid/problem.h"
#include "plan/lesson.h"
#include "plan/plan_folder.h"
#include "plan/variants.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>
#include <sys/stat.h>

using namespace tidemark;
namespace fs = std::filesystem;

namespace {

std::string plan_of(const std::string& key, const std::string& file) {
    const std::string head = "tidemark = 1\n[sheet]\nsize_mm = [380, 280]\npaper = \"cold-pressed-300\"\n[mix.blue]\nPB29 = 1\n";
    if (key == "picture")
        return head + "[reference]\npicture = \"" + file + "\"\n[[step]]\ndo = \"wet\"\nwater_g_m2 = 50\n";
    if (key == "area")
        return head + "[area.a]\nmask = \"" + file + "\"\n[[step]]\ndo = \"wet\"\narea = \"a\"\nwater_g_m2 = 50\n";
    return head + "[[step]]\ndo = \"wash\"\nmix = \"blue\"\nfilm_um = 50\n" + key + " = \"" + file + "\"\n";
}

} // namespace

TEST_CASE("every key that names a file keeps to the plan's folder, unless the painter says otherwise", "[wrong][plan]") {
    const PlanFolder folder;
    const fs::path outside = folder.path("../outside.png");
    folder.mask("../away.png", 38, 28, [](int, int y) { return y < 14; });
    fs::create_directory_symlink("..", folder.path("up"));
    const std::string absolute = fs::canonical(folder.path("..")).string() + "/away.png";
    for (const char* key : {"mask", "order", "picture", "area"})
        for (const std::string& way : {std::string("../away.png"), absolute, std::string("up/away.png"), std::string("masks/../../away.png")}) {
            INFO(key << " " << way);
            const std::string text = plan_of(key, way), said = folder.said(text);
            CHECK_THAT(said, Catch::Contains("leaves the plan's folder; allowed: a file in the plan's folder, such as \"masks/sky.png\"; or any that you may read, with --allow-outside"));
            CHECK(std::count(said.begin(), said.end(), '\n') == 0);
            folder.write("plan.toml", text);
            CHECK_NOTHROW(plan::read_plan(folder.path("plan.toml"), PlanFolder::presets(), plan::FilesFrom::anywhere));
            CHECK_NOTHROW(plan::Variants(folder.path("plan.toml"), PlanFolder::presets(), plan::FilesFrom::anywhere).with({}));
            CHECK_THROWS_AS(plan::Variants(folder.path("plan.toml"), PlanFolder::presets()), grid::BadInput);
        }
}

TEST_CASE("a link that stays in the plan's folder is the painter's own", "[plan]") {
    const PlanFolder folder;
    fs::create_symlink("sky.png", folder.path("masks/same.png"));
    fs::create_directory_symlink("masks", folder.path("more"));
    CHECK(folder.said(plan_of("mask", "masks/same.png")) == "");
    CHECK(folder.said(plan_of("mask", "more/sky.png")) == "");
    fs::create_directory_symlink(folder.path(""), folder.path("../linked")); // the folder itself may be reached by one
    folder.write("plan.toml", plan_of("mask", "masks/sky.png"));
    CHECK_NOTHROW(plan::read_plan(folder.path("../linked/plan.toml"), PlanFolder::presets()));
}

TEST_CASE("what would never end, or leads nowhere, is refused", "[wrong][plan]") {
    const PlanFolder folder;
    REQUIRE(mkfifo(folder.path("masks/pipe.png").c_str(), 0600) == 0);
    fs::create_symlink("ring.png", folder.path("masks/ring.png"));
    CHECK_THAT(folder.said(plan_of("mask", "masks/pipe.png")), Catch::Contains("mask \"masks/pipe.png\" is a pipe or a device; allowed: "));
    CHECK_THAT(folder.said(plan_of("mask", "masks/ring.png")), Catch::Contains("mask \"masks/ring.png\": no such file"));
    CHECK_THAT(folder.said(plan_of("mask", "masks/" + std::string(400, 'x') + ".png")), Catch::Contains(": no such file"));
}

TEST_CASE("a lesson's plan may be no link out of its folder", "[wrong][plan]") {
    const PlanFolder folder;
    folder.write("lesson.toml", "tidemark = 1\nnumber = 1\ntitle = \"x\"\nmoments = [\"1:00\", \"2:00\", \"3:00\", \"4:00\"]\n[[sheet]]\nplan = \"a.toml\"\n");
    folder.write("../away.toml", "x");
    fs::create_symlink("../away.toml", folder.path("a.toml"));
    CHECK_THROWS_WITH(plan::read_lesson(folder.path("")), Catch::Contains("plan \"a.toml\" is a link that leaves the lesson's folder") && Catch::Contains("--allow-outside"));
    CHECK_NOTHROW(plan::read_lesson(folder.path(""), plan::FilesFrom::anywhere));
}

TEST_CASE("a name can carry no control character to the terminal, as a key or as a value", "[wrong][plan]") {
    const PlanFolder folder;
    const std::string good = plan_of("mask", "masks/sky.png");
    for (const char* control : {"\\u001b]0;x\\u0007", "\\u009b31m", "\\u007f"})
        for (const char* where : {"[mix.\"blue%\"]\nPB29 = 1\n", "[area.\"%\"]\nmask = \"masks/sky.png\"\n", "[[step]]\nname = \"%\"\ndo = \"wet\"\nwater_g_m2 = 50\n"}) {
            std::string table = where;
            table.replace(table.find('%'), 1, control);
            const std::string said = folder.said(good + table);
            INFO(table);
            CHECK_THAT(said, Catch::Contains("holds a line break or control character"));
            CHECK(said.find_first_of("\x1b\x07\x7f") == std::string::npos);
            CHECK(said.find("\xc2\x9b") == std::string::npos);
        }
}

TEST_CASE("thousands of nameless acts are named, each with a name of its own", "[plan]") {
    const PlanFolder folder;
    std::string text = plan_of("mask", "masks/sky.png");
    for (int k = 1; k < 5000; ++k) text += k == 700 ? "[[step]]\nname = \"wash 9\"\ndo = \"tilt\"\nangle_deg = 1\n" : "[[step]]\ndo = \"wash\"\nmix = \"blue\"\nfilm_um = 20\n";
    const plan::Plan p = folder.read(text);
    std::set<std::string> names;
    for (const plan::Step& s : p.steps) names.insert(s.name);
    CHECK(names.size() == 5000);
    CHECK(p.steps[8].name == "wash 10"); // another one has "wash 9"
    CHECK_THAT(folder.said(text + "[[step]]\ndo = \"wet\"\nwater_g_m2 = 50\n"), Catch::EndsWith("one step too many; allowed: 5000"));
}
