// sim/CMakeLists.txt says which room uses which. The compiler holds a room's .cpp files to it through their include
// paths; a header that no .cpp of its room includes would slip through, so every file is read here.
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace fs = std::filesystem;

namespace {

using Rooms = std::map<std::string, std::set<std::string>>; ///< room: those it uses, sooner or later also all below

std::string text_of(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    REQUIRE(in.good());
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

/// From lines such as `tidemark_room(hand USES sheet plan LIBRARIES fmt::fmt)`.
Rooms rooms_in(const std::string& cmake) {
    Rooms rooms;
    std::istringstream lines(cmake);
    for (std::string line; std::getline(lines, line);) {
        std::smatch m;
        static const std::regex call(R"(^tidemark_room\(([^)]*)\))");
        if (!std::regex_search(line, m, call)) continue;
        std::istringstream words(m[1]);
        std::string name, list;
        words >> name;
        rooms[name];
        for (std::string word; words >> word;) {
            if (word == "USES" || word == "LIBRARIES") list = word;
            else if (list == "USES") rooms[name].insert(word);
        }
    }
    return rooms;
}

/// What a room may include: itself, the rooms it uses, and all that these use.
Rooms with_all_below(const Rooms& direct) {
    Rooms reach = direct;
    for (bool grew = true; grew;) {
        grew = false;
        for (auto& [room, used] : reach)
            for (const std::string& one : std::set<std::string>(used))
                for (const std::string& below : reach.at(one)) grew |= used.insert(below).second;
    }
    return reach;
}

/// The quoted #includes of a file of `room` that the table does not allow.
std::vector<std::string> not_allowed(const Rooms& reach, const std::string& room, const std::string& text) {
    std::vector<std::string> wrong;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::smatch m;
        static const std::regex include(R"re(^\s*#\s*include\s*"([^"]*)")re");
        if (!std::regex_search(line, m, include)) continue;
        const std::string path = m[1], from = path.substr(0, path.find('/'));
        if (from != room && !reach.at(room).count(from)) wrong.push_back(path);
    }
    return wrong;
}

} // namespace

TEST_CASE("the check of includes sees a room it may not use, near or far", "[law][grid]") {
    const Rooms reach = with_all_below(rooms_in("# tidemark_room(paper USES ink)\n"
                                                "tidemark_room(base LIBRARIES ink)\n"
                                                "tidemark_room(middle USES base LIBRARIES some::thing)\n"
                                                "tidemark_room(top USES middle)\ntidemark_room(aside USES base)\n"));
    CHECK(reach == Rooms{{"base", {}}, {"middle", {"base"}}, {"top", {"middle", "base"}}, {"aside", {"base"}}});
    const std::string text = "#include <vector>\n#include \"base/a.h\"\n  # include \"top/b.h\"\n#include \"middle/c.h\"\n";
    CHECK(not_allowed(reach, "top", text).empty());
    CHECK(not_allowed(reach, "middle", text) == std::vector<std::string>{"top/b.h"});
    CHECK(not_allowed(reach, "aside", text) == std::vector<std::string>{"top/b.h", "middle/c.h"});
    CHECK(not_allowed(reach, "top", "#include \"../base/a.h\"\n") == std::vector<std::string>{"../base/a.h"});
    CHECK(not_allowed(reach, "top", "#include \"a.h\"\n") == std::vector<std::string>{"a.h"});
}

TEST_CASE("every file of a room includes only what the room table allows", "[law][grid]") {
    const fs::path sim = fs::path(TIDEMARK_SOURCE_DIR) / "sim";
    const Rooms direct = rooms_in(text_of(sim / "CMakeLists.txt"));
    for (const auto& [room, used] : direct)
        for (const std::string& one : used) REQUIRE(direct.count(one) == 1);
    const Rooms reach = with_all_below(direct);
    for (const auto& [room, below] : reach) CHECK(below.count(room) == 0); // no circles
    std::map<std::string, int> files_read;
    for (const fs::directory_entry& file : fs::recursive_directory_iterator(sim)) {
        const fs::path path = fs::relative(file.path(), sim);
        if (path.extension() != ".h" && path.extension() != ".cpp") continue;
        const std::string room = path.begin()->string();
        INFO(path.string());
        REQUIRE(reach.count(room) == 1); // a folder that is no room
        CHECK(not_allowed(reach, room, text_of(file.path())) == std::vector<std::string>{});
        ++files_read[room];
    }
    CHECK(files_read.size() == reach.size());
}
