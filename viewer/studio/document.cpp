#include "viewer/studio/document.h"

#include "grid/files.h"
#include "plan/read_plan.h"
#include "viewer/studio/edit_text_detail.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>

namespace tidemark::viewer {

namespace fs = std::filesystem;

namespace {

constexpr std::int64_t most_bytes = 1 << 20; ///< of a plan, as its reader has it

struct State {
    std::string text, label; ///< label: of the change that made it
};

std::vector<std::uint8_t> bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in) throw grid::IoError(file.string() + ": can't be read");
    return {std::istreambuf_iterator<char>(in), {}};
}

fs::path folder_of(const fs::path& file) { return file.has_parent_path() ? file.parent_path() : fs::path("."); }

} // namespace

struct Document::Inside {
    fs::path file;
    const materials::Presets* presets;
    plan::FilesFrom from = plan::FilesFrom::folder;
    std::vector<State> states;
    std::size_t at = 0;               ///< the present one
    int revision = 0;
    std::string on_disk;              ///< what the file held when it was read or saved
    std::shared_ptr<const plan::Plan> plan;
    std::vector<grid::Problem> problems;

    const std::string& text() const { return states[at].text; }
    plan::Plan read(const std::string& t) const { return plan::read_plan_text(t, file, *presets, plan.get(), from); }
    /// Whatever it says: a broken text is told of. `anew`: the masks too.
    void read_present(bool anew = false) {
        ++revision;
        problems.clear();
        try {
            plan = std::make_shared<const plan::Plan>(plan::read_plan_text(text(), file, *presets, anew ? nullptr : plan.get(), from));
        } catch (const grid::BadInput& bad) {
            problems = bad.problems();
        }
    }
    /// Only what can be read becomes the present text.
    void change(std::string t, const std::string& label) {
        if (t == text()) return;
        auto next = std::make_shared<const plan::Plan>(read(t));
        push(std::move(t), label);
        plan = std::move(next);
        problems.clear();
        ++revision;
    }
    void push(std::string t, const std::string& label) {
        states.resize(at + 1);
        states.push_back({std::move(t), label});
        ++at;
    }
    const plan::Plan& sound() const {
        if (!plan || !problems.empty()) throw grid::BadInput(problems);
        return *plan;
    }
    std::string step_name(int step) const {
        const plan::Plan& p = sound();
        if (step < 0 || step >= static_cast<int>(p.steps.size())) throw grid::BadInput(file.string(), fmt::format("there is no act {}", step), "an act of the plan");
        return p.steps[static_cast<std::size_t>(step)].name;
    }
};

Document::Document(fs::path file, const materials::Presets& presets, plan::FilesFrom from) : in_(std::make_unique<Inside>()) {
    in_->file = std::move(file), in_->presets = &presets, in_->from = from;
    in_->on_disk = grid::read_text(in_->file, most_bytes);
    in_->states.push_back({in_->on_disk, ""});
    in_->read_present();
}

Document::Document(fs::path file, std::string text, const materials::Presets& presets, plan::FilesFrom from) : in_(std::make_unique<Inside>()) {
    in_->file = std::move(file), in_->presets = &presets, in_->from = from;
    in_->states.push_back({std::move(text), ""});
    std::error_code none;
    if (fs::exists(in_->file, none)) in_->on_disk = grid::read_text(in_->file, most_bytes);
    in_->read_present();
}

Document::~Document() = default;
Document::Document(Document&&) noexcept = default;
Document& Document::operator=(Document&&) noexcept = default;

const fs::path& Document::file() const { return in_->file; }
const std::string& Document::text() const { return in_->text(); }
int Document::revision() const { return in_->revision; }
std::shared_ptr<const plan::Plan> Document::plan() const { return in_->plan; }
const std::vector<grid::Problem>& Document::problems() const { return in_->problems; }
bool Document::changed() const { return in_->text() != in_->on_disk; }

void Document::set(const std::string& where, const std::string& key, const std::string& value) {
    in_->change(with_value(text(), in_->sound(), where, key, value), fmt::format("{}: {} {}", where, key, value.empty() ? "taken away" : value));
}

void Document::set_many(const std::string& label, const std::vector<std::array<std::string, 3>>& changes) {
    std::string t = text();
    for (const auto& [where, key, value] : changes) t = with_value(t, in_->sound(), where, key, value);
    in_->change(std::move(t), label);
}

std::optional<std::string> Document::get(const std::string& where, const std::string& key) const {
    return value_in(text(), in_->sound(), where, key);
}

void Document::move_act(int step, double to_s, const std::vector<ActSpan>& played) {
    const std::string name = in_->step_name(step);
    const long s = std::lround(std::max(0.0, to_s));
    in_->change(with_act_moved(text(), *in_->plan, step, to_s, played), fmt::format("{} to {}:{:02}", name, s / 60, s % 60));
}

int Document::add_act(const NewAct& act, int after_step) {
    return add({.act = act, .after_step = after_step});
}

int Document::add(const Addition& a) {
    in_->change(with_addition(text(), in_->sound(), a), fmt::format("{} added", a.act.name.empty() ? a.act.verb : a.act.name));
    return a.after_step + 1;
}

void Document::remove_act(int step) {
    const std::string name = in_->step_name(step);
    in_->change(without_act(text(), *in_->plan, step), fmt::format("{} taken away", name));
}

void Document::add_mix(const std::string& name, const std::vector<std::pair<std::string, double>>& pigment_pct) {
    in_->change(with_mix(text(), name, pigment_pct), fmt::format("mix {} added", name));
}

void Document::add_want(const std::string& first, const std::string& second, const std::string& edge) {
    in_->change(with_want(text(), first, second, edge), fmt::format("wanted: {} | {} {}", first, second, edge));
}

void Document::replace(std::string t, const std::string& label) { in_->change(std::move(t), label); }

bool Document::can_undo() const { return in_->at > 0; }
bool Document::can_redo() const { return in_->at + 1 < in_->states.size(); }
std::string Document::undo_label() const { return can_undo() ? in_->states[in_->at].label : std::string(); }
std::string Document::redo_label() const { return can_redo() ? in_->states[in_->at + 1].label : std::string(); }

void Document::undo() {
    if (!can_undo()) return;
    --in_->at;
    in_->read_present();
}

void Document::redo() {
    if (!can_redo()) return;
    ++in_->at;
    in_->read_present();
}

void Document::save() {
    grid::OutputFolder out(folder_of(in_->file));
    out.write(in_->file.filename().string(), std::string_view(text()));
    out.commit();
    in_->on_disk = text();
}

std::vector<fs::path> Document::save_as(const fs::path& file) {
    in_->sound();
    const fs::path from = folder_of(in_->file), to = folder_of(file);
    std::vector<std::pair<fs::path, std::vector<std::uint8_t>>> copies; // all read before any is written
    for (const std::string& name : files_named(text())) {
        const fs::path there = to / name;
        std::error_code none;
        if (fs::equivalent(from / name, there, none) || fs::path(name).is_absolute()) continue;
        if (!grid::lies_in(to, there)) throw grid::BadInput(there.string(), "lies outside the new plan's folder: it can't be taken along", "the folder of the plan");
        std::vector<std::uint8_t> bytes = bytes_of(from / name);
        if (fs::exists(there, none) && bytes_of(there) == bytes) continue;
        if (fs::exists(there, none)) throw grid::BadInput(there.string(), "another picture lies here under that name", "another folder");
        copies.emplace_back(there, std::move(bytes));
    }
    std::vector<fs::path> copied;
    for (const auto& [there, bytes] : copies) {
        grid::OutputFolder out(there.parent_path());
        out.write(there.filename().string(), std::span(bytes));
        out.commit();
        copied.push_back(there);
    }
    grid::OutputFolder out(to);
    out.write(file.filename().string(), std::string_view(text()));
    out.commit();
    in_->file = file, in_->on_disk = text();
    in_->read_present(true);
    return copied;
}

bool Document::changed_on_disk() const {
    std::error_code none;
    if (!fs::exists(in_->file, none)) return false;
    try {
        return grid::read_text(in_->file, most_bytes) != in_->on_disk;
    } catch (const grid::BadInput&) {
        return true;
    }
}

void Document::reload() { take(reading_again()()); }

std::function<Document::Fresh()> Document::reading_again() const {
    return [file = in_->file, known = in_->on_disk, presets = in_->presets, from = in_->from] {
        Fresh fresh{file, known, grid::read_text(file, most_bytes), nullptr, {}};
        try {
            fresh.plan = std::make_shared<const plan::Plan>(plan::read_plan_text(fresh.text, file, *presets, nullptr, from));
        } catch (const grid::BadInput& bad) {
            fresh.problems = bad.problems();
        }
        return fresh;
    };
}

bool Document::is_still(const Fresh& fresh) const { return in_->file == fresh.file && in_->on_disk == fresh.was_on_disk; }

void Document::take(Fresh fresh) {
    in_->on_disk = fresh.text;
    if (fresh.text != text()) in_->push(std::move(fresh.text), "read again");
    ++in_->revision;
    in_->problems = std::move(fresh.problems);
    if (fresh.plan) in_->plan = std::move(fresh.plan);
}

} // namespace tidemark::viewer
