/// A lesson: one effect on one sheet, or on two sheets side by side, and the moments at which to look.
///
/// It is a folder with the plans, a page for the reader (page.md) and lesson.toml:
///
///   tidemark = 1
///   number = 2                         # its place in the course
///   title = "The back wetted or not"
///   cell_mm = 0.5                      # how fine it is rehearsed unless somebody says otherwise
///   moments = ["2:15", "8:00"]         # rising; the dried sheet comes after them
///   [[sheet]]                          # one or two
///   plan = "a.toml"                    # in the folder
///   caption = "front wetted"           # needed when there are two
///   watch = "open"                     # the area whose stage is told; the whole sheet when there is none
///
/// Errors: BadInput with all problems of lesson.toml, each with its line and what is allowed.
#pragma once
#include "plan/files_from.h"

#include <filesystem>
#include <string>
#include <vector>

namespace tidemark::plan {

constexpr const char* lesson_file = "lesson.toml";
constexpr const char* lesson_page = "page.md";

struct LessonSheet {
    std::filesystem::path plan; ///< not read yet
    std::string caption;        ///< empty: none
    std::string watch;          ///< an area of the plan, not looked for yet; empty: the whole sheet
    std::string where;          ///< file and line of its table, for messages
};

struct Lesson {
    std::filesystem::path folder;
    int number = 0;              ///< 1 ... 99
    std::string title;
    double cell_mm = 0.5;        ///< 0.1 ... 4
    std::vector<double> moments_s; ///< 4 to 7, rising, above 0
    std::vector<LessonSheet> sheets;
    std::string name() const { return folder.filename().string(); }
};

Lesson read_lesson(const std::filesystem::path& folder, FilesFrom = FilesFrom::folder);

/// All folders in `folder` that hold a lesson.toml, by number, then name. None when there is no such folder.
std::vector<Lesson> read_lessons(const std::filesystem::path& folder);

} // namespace tidemark::plan
