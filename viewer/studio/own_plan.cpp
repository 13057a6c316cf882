#include "viewer/studio/own_plan.h"

#include "grid/clean_text.h"
#include "grid/files.h"
#include "reference/draft.h"
#include "viewer/studio/edit_text_detail.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

namespace tidemark::viewer {

namespace fs = std::filesystem;

namespace {

constexpr const char* plan_name = "plan.toml";
constexpr std::size_t most_names = 3; ///< of masses in the name of an area

fs::path temporary_folder() {
    std::string name = (fs::temp_directory_path() / "tidemark-acts-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw grid::IoError(name + ": no place for temporary files");
    return name;
}

std::string bare_text(const std::string& picture_name, const reference::PictureMasses& found, const reference::Key& key) {
    std::string text = fmt::format("# Acts on the masses of {}, squinted at in {} groups of values.\n", grid::clean_text(picture_name, 80), found.groups.count);
    if (key.moves())
        text += fmt::format("# Its values from L* {:.0f} to {:.0f} became {:.0f} to {:.0f} in reference.png: paint and paper reach no further.\n", key.from_dark,
                            key.from_light, key.to_dark, key.to_light);
    return text + reference::sheet_text(found.sheet, found.groups.count);
}

std::string name_of(const reference::PictureMasses& found, const std::vector<int>& numbers) {
    std::string name;
    for (std::size_t k = 0; k < std::min(numbers.size(), most_names); ++k) {
        std::string one = fmt::format("mass-{}", numbers[k]);
        for (std::size_t m = 0; m < found.masses.list.size(); ++m)
            if (found.masses.list[m].number == numbers[k] && !found.names[m].empty()) one = found.names[m];
        name += (name.empty() ? "" : "-and-") + one;
    }
    if (numbers.size() > most_names) name += fmt::format("-and-{}-more", numbers.size() - most_names);
    return name == "sheet" || name == "paper" ? "mass-" + name : name; // words of the plan's own
}

grid::GreyPicture mask_of(const reference::PictureMasses& found, const std::vector<int>& numbers) {
    std::vector<float> is_in(found.masses.list.size());
    for (std::size_t m = 0; m < is_in.size(); ++m) is_in[m] = std::count(numbers.begin(), numbers.end(), found.masses.list[m].number) > 0 ? 1.0f : 0.0f;
    grid::GreyPicture mask{found.masses.width, found.masses.height, std::vector<float>(found.masses.of.size())};
    for (std::size_t p = 0; p < mask.value.size(); ++p) mask.value[p] = is_in[static_cast<std::size_t>(found.masses.of[p])];
    return mask;
}

/// Of what `was` covers, the share that `is` covers too.
double still_there(const grid::GreyPicture& was, const grid::GreyPicture& is) {
    if (was.value.size() != is.value.size()) return 0;
    double all = 0, both = 0;
    for (std::size_t p = 0; p < was.value.size(); ++p) all += was.value[p], both += was.value[p] * is.value[p];
    return all > 0 ? both / all : 0;
}

} // namespace

OwnPlan::OwnPlan(const grid::Picture& picture, const std::string& picture_name, const reference::PictureMasses& found, const materials::Presets& presets)
    : presets_(presets), folder_(temporary_folder()) {
    const grid::Picture sized = reference::sized_as_reference(picture, found.sheet);
    key_ = reference::key_of(sized);
    bare_ = bare_text(picture_name, found, key_);
    texts_ = {bare_};
    grid::OutputFolder out(folder_);
    out.write("reference.png", grid::png_bytes(reference::in_key(sized, key_), 1000.0 * sized.width / found.sheet.width_mm));
    out.commit();
}

OwnPlan::~OwnPlan() {
    std::error_code none;
    fs::remove_all(folder_, none);
}

Ground OwnPlan::ground() const {
    if (document_ && document_->problems().empty()) return {document_->text(), folder_ / plan_name, document_->plan()};
    return {bare_, folder_ / plan_name, nullptr};
}

int OwnPlan::revision() const { return revision_; }

const std::vector<grid::Problem>& OwnPlan::problems() const {
    static const std::vector<grid::Problem> none;
    return document_ ? document_->problems() : none;
}

double OwnPlan::lstar_in_key(double lstar) const { return key_.moves() ? key_.at(lstar) : lstar; }

void OwnPlan::put_mask(const Drawn& d) const {
    grid::OutputFolder out(folder_);
    out.write("masks/" + d.name + ".png", grid::png_bytes(d.mask));
    out.commit();
}

NewArea OwnPlan::area_of(const reference::PictureMasses& found, const std::vector<int>& numbers) {
    std::vector<int> sorted = numbers;
    std::sort(sorted.begin(), sorted.end());
    for (const Drawn& d : drawn_)
        if (d.masses == sorted) return {d.name, "masks/" + d.name + ".png"};
    std::string name = name_of(found, sorted);
    const auto taken = [&](const std::string& n) { return std::any_of(drawn_.begin(), drawn_.end(), [&](const Drawn& d) { return d.name == n; }); };
    for (int k = 2; taken(name); ++k) name = fmt::format("{}-{}", name_of(found, sorted), k);
    drawn_.push_back({name, sorted, mask_of(found, sorted)});
    put_mask(drawn_.back());
    return {name, "masks/" + name + ".png"};
}

void OwnPlan::add(Addition a) {
    const Ground before = ground();
    if (before.plan && a.area && before.plan->area_index(a.area->name) >= 0) a.area.reset();
    if (document_) {
        document_->add(a);
        return changed();
    }
    plan::Plan none;
    none.file = before.file;
    Document first(before.file, with_addition(before.text, none, a), presets_);
    if (!first.problems().empty()) throw grid::BadInput(first.problems());
    document_.emplace(std::move(first));
    changed();
}

void OwnPlan::take_out(int step) {
    if (!document_) return;
    if (document_->plan() && document_->plan()->steps.size() == 1) // a plan without acts is none
        document_.reset();
    else
        document_->remove_act(step);
    changed();
}

void OwnPlan::changed() {
    texts_.resize(at_ + 1);
    texts_.push_back(document_ ? document_->text() : bare_);
    ++at_, ++revision_;
}

void OwnPlan::go_to(std::size_t at) {
    std::optional<Document> there; // first, for it may throw
    if (texts_[at] != bare_) there.emplace(folder_ / plan_name, texts_[at], presets_); // with its masks as they are now, and what may be wrong with them
    document_ = std::move(there);
    at_ = at, ++revision_;
}

bool OwnPlan::can_undo() const { return at_ > 0; }
bool OwnPlan::can_redo() const { return at_ + 1 < texts_.size(); }
void OwnPlan::undo() {
    if (can_undo()) go_to(at_ - 1);
}
void OwnPlan::redo() {
    if (can_redo()) go_to(at_ + 1);
}

void OwnPlan::follow(const reference::PictureMasses& found) {
    bool changed = false;
    for (Drawn& d : drawn_) {
        grid::GreyPicture now = mask_of(found, d.masses);
        if (now.value == d.mask.value || still_there(d.mask, now) < 0.5) continue;
        d.mask = std::move(now);
        put_mask(d);
        changed = true;
    }
    if (!changed || !document_) return;
    document_->save();
    document_->reload(); // with its masks
    ++revision_;
}

void OwnPlan::write(const fs::path& folder) {
    std::error_code none;
    if (!document_) throw grid::BadInput("the plan", "it has no act yet", "at least one");
    if (fs::exists(folder / plan_name, none)) throw grid::BadInput((folder / plan_name).string(), "a plan is here already", "another folder");
    document_->save_as(folder / plan_name);
}

} // namespace tidemark::viewer
