#include "grid/files.h"
#include "plan/clock.h"
#include "plan/keys_detail.h"
#include "plan/lesson.h"

#include <algorithm>
#include <fmt/format.h>
#include <tuple>

namespace tidemark::plan {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t fewest_moments = 4, most_moments = 7, most_sheets = 2;

std::vector<double> read_moments(Keys& keys) {
    const std::string allowed = "4 to 7 times in quotes, later and later, such as [\"2:00\", \"8:15\", \"20:00\", \"45:00\"]";
    const Value* value = keys.find("moments");
    std::vector<double> moments_s;
    if (value == nullptr) {
        keys.refuse("moments", "moments is missing", allowed);
        return moments_s;
    }
    bool good = value->kind == Value::Kind::list && value->list.size() >= fewest_moments && value->list.size() <= most_moments;
    for (const Value& moment : value->list) {
        const auto seconds = moment.kind == Value::Kind::text ? seconds_from_clock(moment.text) : std::nullopt;
        good = good && seconds && *seconds > (moments_s.empty() ? 0 : moments_s.back());
        moments_s.push_back(seconds.value_or(0));
    }
    if (!good)
        keys.refuse("moments", "moments is " + described(*value) + " of another shape", allowed);
    return moments_s;
}

void read_sheets(Keys& root, Problems& problems, Lesson& lesson, FilesFrom from) {
    const std::vector<Value>* tables = root.tables("sheet");
    if (tables == nullptr || tables->empty() || tables->size() > most_sheets)
        return root.refuse("sheet", tables == nullptr ? "[[sheet]] is missing" : "too many [[sheet]]", "one or two");
    for (const Value& table : *tables) {
        Keys keys(table, "[[sheet]]", problems);
        LessonSheet sheet;
        const std::string file = keys.text("plan", {}, "a plan beside lesson.toml, such as \"plan.toml\"");
        if (fs::path(file).filename() != file || file == "..")
            keys.refuse("plan", "plan " + in_quotes(file) + " leaves the lesson's folder", "a plan beside lesson.toml");
        else if (from == FilesFrom::folder && !file.empty() && !grid::lies_in(lesson.folder, lesson.folder / file))
            keys.refuse("plan", "plan " + in_quotes(file) + " is a link that leaves the lesson's folder",
                        fmt::format("a plan beside lesson.toml; or any that you may read, with {}", outside_option));
        sheet.plan = lesson.folder / file;
        if (tables->size() > 1)
            sheet.caption = keys.text("caption", {}, "what is different on this sheet");
        else
            sheet.caption = keys.text("caption", "");
        sheet.watch = keys.text("watch", "", "the name of an area of the plan");
        sheet.where = problems.where(keys.line("watch"));
        keys.finish();
        lesson.sheets.push_back(std::move(sheet));
    }
}

} // namespace

Lesson read_lesson(const fs::path& folder, FilesFrom from) {
    const fs::path file = folder / lesson_file;
    const Value document = parse_document(grid::read_text(file, 1 << 20), file.string());
    Problems problems(file.string());
    Lesson lesson;
    lesson.folder = folder;
    Keys root(document, "", problems);
    root.whole("tidemark", 1, 1);
    lesson.number = static_cast<int>(root.whole("number", 1, 99));
    lesson.title = root.text("title");
    lesson.cell_mm = root.number("cell_mm", {0.1, 4, "mm"}, 0.5);
    lesson.moments_s = read_moments(root);
    read_sheets(root, problems, lesson, from);
    root.finish();
    problems.throw_if_any();
    return lesson;
}

std::vector<Lesson> read_lessons(const fs::path& folder) {
    std::vector<Lesson> lessons;
    std::error_code none; // no folder, no lessons
    for (const auto& entry : fs::directory_iterator(folder, none))
        if (fs::exists(entry.path() / lesson_file))
            lessons.push_back(read_lesson(entry.path()));
    std::sort(lessons.begin(), lessons.end(), [](const Lesson& a, const Lesson& b) {
        return std::tuple(a.number, a.name()) < std::tuple(b.number, b.name());
    });
    return lessons;
}

} // namespace tidemark::plan
