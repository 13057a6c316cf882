// What is built with is the system's, and the README says what it is.
#include "support/house.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace tidemark::tests;
namespace fs = std::filesystem;

namespace {

const fs::path source = TIDEMARK_SOURCE_DIR;

/// What a CMake text asks the system for, with the version it names, or empty.
std::map<std::string, std::string> asked_in(const std::string& text) {
    std::map<std::string, std::string> asked;
    static const std::regex package("(?:^|\\n)\\s*(?:find_package|pkg_check_modules)\\(([A-Za-z0-9_]+)(?: ([0-9.]+))?");
    static const std::regex file("(?:^|\\n)\\s*find_(?:path|file)\\([A-Z_]+ ([A-Za-z0-9_./-]+)");
    for (std::sregex_iterator it(text.begin(), text.end(), package), end; it != end; ++it) asked[(*it)[1]] = (*it)[2];
    for (std::sregex_iterator it(text.begin(), text.end(), file), end; it != end; ++it) asked[(*it)[1]] = "";
    return asked;
}

/// Words by which a build would bring in what is not the system's; the first that is found.
std::string fetches(const std::string& text) {
    static const std::regex word("FetchContent|ExternalProject|file\\(DOWNLOAD|CPMAddPackage|git clone|curl |wget |https?://");
    std::smatch found;
    return std::regex_search(text, found, word) ? found.str() : "";
}

bool is_build_file(const fs::path& file) { return file.filename() == "CMakeLists.txt" || file.extension() == ".cmake"; }

std::vector<fs::path> build_files() {
    std::vector<fs::path> files{source / "CMakeLists.txt"};
    for (const char* folder : {"sim", "viewer", "presets", "tests", "bench", ".package"})
        for (const auto& entry : fs::recursive_directory_iterator(source / folder))
            if (is_build_file(entry.path())) files.push_back(entry.path());
    return files;
}

/// The rows of the README's table: what is asked for, package, version, licence, why.
std::map<std::string, std::vector<std::string>> rows() {
    const std::string readme = file_text(source / "README.md");
    const std::size_t start = readme.find("| asked for as |");
    REQUIRE(start != std::string::npos);
    const std::string table = readme.substr(start, readme.find("\n\n", start) - start);
    static const std::regex row("\\n\\| `([^`]+)` \\| ([^|]+) \\| ([^|]+) \\| ([^|]+) \\| ([^|\\n]+) \\|");
    std::map<std::string, std::vector<std::string>> all;
    for (std::sregex_iterator it(table.begin(), table.end(), row), end; it != end; ++it)
        all[(*it)[1]] = {(*it)[2], (*it)[3], (*it)[4], (*it)[5]};
    return all;
}

} // namespace

TEST_CASE("nothing is fetched while building, and every library is asked of the system", "[law][house]") {
    const auto files = build_files();
    CHECK(files.size() >= 8);
    for (const fs::path& file : files) {
        INFO(file);
        CHECK(fetches(file_text(file)) == "");
    }
    for (const char* folder : {"vendor", "third_party", "external", "extern", "deps", ".gitmodules"})
        CHECK_FALSE(fs::exists(source / folder));
}

TEST_CASE("what the build asks the system for stands in the README with version, licence and why, and nothing else", "[law][house]") {
    const auto table = rows();
    std::map<std::string, std::string> asked;
    for (const fs::path& file : build_files())
        if (file.string().find("/bench/") == std::string::npos) // what is only compared with is named below the table
            for (const auto& [name, version] : asked_in(file_text(file))) asked[name] = version;
    asked.erase("Inter-Medium.otf"); // comes with the other
    std::set<std::string> in_build, in_table;
    for (const auto& [name, version] : asked) {
        in_build.insert(name);
        const auto row = table.find(name);
        if (row == table.end()) continue;
        INFO(name);
        CHECK((version.empty() ? row->second[1].rfind("at least", 0) != 0 : row->second[1].rfind(fmt::format("at least {};", version), 0) == 0));
        CHECK(row->second[1].find_first_of("0123456789") != std::string::npos);
        CHECK(row->second[2].size() >= 3);
        CHECK(row->second[3].size() >= 5);
    }
    for (const auto& [name, row] : table) in_table.insert(name);
    CHECK(in_build == in_table);
    CHECK(in_table.size() >= 15);
}

TEST_CASE("the packages of the README's first command are those of its table of dependencies", "[law][house]") {
    const std::string readme = file_text(source / "README.md");
    const std::string before = "--no-install-recommends ";
    const std::size_t start = readme.find(before) + before.size();
    std::istringstream words(readme.substr(start, readme.find(" && cmake", start) - start));
    std::set<std::string> installed{std::istream_iterator<std::string>(words), {}}, listed{"g++", "cmake", "make"};
    for (const auto& [name, row] : rows()) listed.insert(row[0].substr(0, row[0].find(' ')));
    CHECK(installed == listed);
}

TEST_CASE("a build that fetches, and a library that is not listed, are seen", "[wrong][house]") {
    CHECK(fetches("include(FetchContent)") == "FetchContent");
    CHECK(fetches("file(DOWNLOAD x y)") == "file(DOWNLOAD");
    CHECK(fetches("find_package(fmt 9 REQUIRED)").empty());
    CHECK(asked_in("find_package(fmt 9 REQUIRED)\n  pkg_check_modules(IMGUI QUIET x)\nfind_path(A a.h)\n") ==
          std::map<std::string, std::string>{{"fmt", "9"}, {"IMGUI", ""}, {"a.h", ""}});
}
