#include "plan/read_plan.h"

#include "grid/files.h"
#include "plan/digest.h"
#include "plan/reading_detail.h"

namespace tidemark::plan {

namespace {

constexpr std::int64_t max_plan_bytes = 1 << 20;
constexpr std::int64_t plan_version = 1;

/// Another version's keys mean other things: nothing else of such a file is read.
void check_version(Reading& reading, Keys& root) {
    const Value* version = root.find("tidemark");
    const std::string allowed = "tidemark = 1, the version of the plan format";
    if (version == nullptr) {
        root.refuse("tidemark", "tidemark is missing", allowed);
    } else if (version->kind != Value::Kind::number || !version->whole || version->integer != plan_version) {
        root.refuse("tidemark", "tidemark is " + described(*version), allowed);
        reading.problems.throw_if_any();
    }
}

} // namespace

Plan read_document(Reading& reading, const Value& document) {
    reading.plan.file = reading.file;
    Keys root(document, "", reading.problems);
    check_version(reading, root);
    read_sheet(reading, root);
    read_mixes(reading, root);
    read_areas(reading, root);
    read_reference(reading, root);
    read_steps(reading, root);
    finish_areas(reading);
    read_wants(reading, root);
    root.finish();
    reading.problems.throw_if_any();
    if (reading.earlier == nullptr || !asks_for_the_same_edges(*reading.earlier, reading.plan)) // it takes long
        check_wants(reading);
    reading.problems.throw_if_any();
    return std::move(reading.plan);
}

std::filesystem::path folder_of(const std::filesystem::path& file) {
    return file.has_parent_path() ? file.parent_path() : ".";
}

Value document_of(const std::filesystem::path& file) {
    return parse_document(grid::read_text(file, max_plan_bytes), file.string());
}

Plan read_plan(const std::filesystem::path& file, const materials::Presets& presets, FilesFrom from) {
    const Value document = document_of(file);
    Reading reading{file, folder_of(file), presets, Problems(file.string()), {}, {}, {}, nullptr, from};
    return read_document(reading, document);
}

Plan read_plan_text(std::string_view text, const std::filesystem::path& file, const materials::Presets& presets, const Plan* earlier,
                    FilesFrom from) {
    if (text.size() > max_plan_bytes)
        throw grid::BadInput(file.string(), "the plan is too long", "at most 1 MiB");
    const Value document = parse_document(text, file.string());
    Reading reading{file, folder_of(file), presets, Problems(file.string()), {}, {}, {}, earlier, from};
    return read_document(reading, document);
}

} // namespace tidemark::plan
