/// The rooms as they are linked, as DEVELOPERS.md shows them, and as the files of sim/ use each other.
#pragma once
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace tidemark::tests {

using Rooms = std::map<std::string, std::set<std::string>>; ///< room: the rooms it is linked with

inline std::string file_text(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

inline std::set<std::string> words_of(const std::string& text) {
    static const std::regex word("[a-z]+");
    std::set<std::string> all;
    for (std::sregex_iterator it(text.begin(), text.end(), word), end; it != end; ++it)
        all.insert(it->str());
    return all;
}

/// From lines such as `tidemark_room(plan USES materials LIBRARIES x)`.
inline Rooms rooms_of_cmake(const std::string& text) {
    static const std::regex line("\\ntidemark_room\\(([a-z]+)(?: USES ([a-z ]+))?");
    Rooms rooms;
    for (std::sregex_iterator it(text.begin(), text.end(), line), end; it != end; ++it)
        rooms[(*it)[1]] = words_of((*it)[2]);
    return rooms;
}

/// From the table below `| room | uses | for |`; what stands in brackets is no room.
inline Rooms rooms_of_table(const std::string& text) {
    static const std::regex row("\\n\\| ([a-z]+) \\| ([^|(]*)[^|]*\\|[^\\n]*");
    const std::size_t start = text.find("| room | uses | for |");
    if (start == std::string::npos)
        return {};
    const std::string table = text.substr(start, text.find("\n\n", start) - start);
    Rooms rooms;
    for (std::sregex_iterator it(table.begin(), table.end(), row), end; it != end; ++it)
        rooms[(*it)[1]] = words_of((*it)[2]);
    return rooms;
}

/// The room itself, and every room that can be reached from it.
inline std::set<std::string> seen_from(const Rooms& rooms, const std::string& room) {
    std::set<std::string> seen{room};
    std::vector<std::string> open{room};
    while (!open.empty()) {
        const std::string next = open.back();
        open.pop_back();
        if (const auto it = rooms.find(next); it != rooms.end())
            for (const std::string& used : it->second)
                if (seen.insert(used).second)
                    open.push_back(used);
    }
    return seen;
}

/// What a file of `room` includes against the table: `water/film.cpp includes "fibre/advance.h"`. Another room's
/// private header (_detail.h) is as wrong as a header of a room out of sight.
inline std::vector<std::string>
wrong_includes(const Rooms& rooms, const std::string& room, const std::string& file, const std::string& text) {
    static const std::regex include("(?:^|\\n)\\s*#\\s*include\\s*\"([^\"]*)\"");
    const std::set<std::string> seen = seen_from(rooms, room);
    std::vector<std::string> wrong;
    for (std::sregex_iterator it(text.begin(), text.end(), include), end; it != end; ++it) {
        const std::string header = (*it)[1], other = header.substr(0, header.find('/'));
        const bool others_own = other != room && header.find("_detail.h") != std::string::npos;
        if (seen.count(other) == 0 || others_own)
            wrong.push_back(file + " includes \"" + header + "\"");
    }
    return wrong;
}

} // namespace tidemark::tests
