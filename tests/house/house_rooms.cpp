// Who may include whom: the build, the table of DEVELOPERS.md and the files themselves must say the same.
#include "support/house.h"

#include <catch2/catch.hpp>

using namespace tidemark::tests;
namespace fs = std::filesystem;

namespace {

const fs::path source = TIDEMARK_SOURCE_DIR;

Rooms linked() { return rooms_of_cmake(file_text(source / "sim/CMakeLists.txt")); }

bool is_code(const fs::path& file) { return file.extension() == ".h" || file.extension() == ".cpp"; }

/// Of all files below `folder`, as files of `room`; counts what was read.
std::vector<std::string>
wrong_below(const Rooms& rooms, const std::string& room, const fs::path& folder, int& files) {
    std::vector<std::string> wrong;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (!entry.is_regular_file() || !is_code(entry.path()))
            continue;
        ++files;
        const std::string name = entry.path().lexically_relative(source).string();
        for (const std::string& line : wrong_includes(rooms, room, name, file_text(entry.path())))
            wrong.push_back(line);
    }
    return wrong;
}

} // namespace

TEST_CASE("every folder of sim is a room, and every room a folder", "[law][house]") {
    std::set<std::string> folders, rooms;
    for (const auto& entry : fs::directory_iterator(source / "sim"))
        if (entry.is_directory())
            folders.insert(entry.path().filename().string());
    for (const auto& [room, uses] : linked())
        rooms.insert(room);
    CHECK(rooms == folders);
    CHECK(rooms.size() >= 15);
}

TEST_CASE("the table in DEVELOPERS.md shows the rooms as they are linked", "[law][house]") {
    CHECK(rooms_of_table(file_text(source / "DEVELOPERS.md")) == linked());
}

TEST_CASE("no room can be reached from a room that it uses", "[law][house]") {
    const Rooms rooms = linked();
    for (const auto& [room, uses] : rooms)
        for (const std::string& used : uses) {
            INFO(room << " uses " << used);
            CHECK(seen_from(rooms, used).count(room) == 0);
        }
}

TEST_CASE("air, water, fibre and pigment don't see each other, judge and report see none of them", "[law][house]") {
    const Rooms rooms = linked();
    const std::set<std::string> processes{"air", "water", "fibre", "pigment"};
    for (const char* room : {"air", "water", "fibre", "pigment", "judge", "report"})
        for (const std::string& process : processes)
            if (process != room)
                CHECK(seen_from(rooms, room).count(process) == 0);
}

TEST_CASE("every include in sim stays within what its room is linked with", "[law][house]") {
    const Rooms rooms = linked();
    int files = 0;
    for (const auto& [room, uses] : rooms)
        CHECK(wrong_below(rooms, room, source / "sim" / room, files) == std::vector<std::string>{});
    CHECK(files > 150); // they were read
}

TEST_CASE("the viewer sees what cli sees; its working half knows no window", "[law][house]") {
    Rooms rooms = linked();
    rooms["viewer"] = rooms["cli"];
    int files = 0;
    CHECK(wrong_below(rooms, "viewer", source / "viewer", files) == std::vector<std::string>{});
    CHECK(files >= 60);
    const std::regex window("#\\s*include\\s*(\"viewer/window/|<SDL|<imgui)"), insides("#\\s*include\\s*\"viewer/studio/[a-z_]*_detail\\.h");
    for (const auto& entry : fs::recursive_directory_iterator(source / "viewer")) {
        if (!entry.is_regular_file() || !is_code(entry.path()))
            continue;
        INFO(entry.path());
        const bool works = entry.path().parent_path().filename() == "studio";
        CHECK_FALSE(std::regex_search(file_text(entry.path()), works ? window : insides));
    }
}

TEST_CASE("a planted include against the table is seen", "[wrong][house]") {
    const Rooms rooms{{"grid", {}}, {"sheet", {"grid"}}, {"water", {"sheet"}}, {"fibre", {"sheet"}}};
    const auto wrong = [&](const std::string& text) {
        return wrong_includes(rooms, "water", "water/film.cpp", text);
    };
    CHECK(wrong("#include \"fibre/advance.h\"\n").size() == 1);
    CHECK(wrong("#pragma once\n  #  include   \"fibre/advance.h\"").size() == 1);
    CHECK(wrong("#include \"../fibre/advance.h\"").size() == 1);
    CHECK(wrong("#include \"grid/decode_detail.h\"").size() == 1);
    CHECK(wrong("#include \"film.h\"").size() == 1); // a room's own headers go by its name too
    CHECK(wrong("#include \"water/film.h\"\n#include \"water/rows_detail.h\"\n#include \"grid/field.h\"\n"
                "#include <fibre/advance.h>\n")
              .empty());
    CHECK(wrong_includes(rooms, "sheet", "sheet/look.cpp", "#include \"water/film.h\"") ==
          std::vector<std::string>{"sheet/look.cpp includes \"water/film.h\""});
}

TEST_CASE("a table that leaves a room or a use out is not the one that is linked", "[wrong][house]") {
    const std::string cmake = "\ntidemark_room(grid LIBRARIES x)\ntidemark_room(plan USES grid LIBRARIES x::y)\n";
    const std::string table =
        "| room | uses | for |\n|---|---|---|\n| grid | (x inside) | a |\n| plan | grid (x) | b |\n\n";
    CHECK(rooms_of_cmake(cmake) == Rooms{{"grid", {}}, {"plan", {"grid"}}});
    CHECK(rooms_of_table(table) == rooms_of_cmake(cmake));
    CHECK(rooms_of_table("| room | uses | for |\n|---|---|---|\n| grid | | a |\n| plan | | b |\n\n") !=
          rooms_of_cmake(cmake));
}
