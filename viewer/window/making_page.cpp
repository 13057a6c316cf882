#include "viewer/window/making_page.h"

#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "grid/picture.h"
#include "viewer/window/attempt.h"

namespace tidemark::viewer {

namespace {

/// Where plans are put unless the painter says otherwise: beside the picture, in the first folder without a plan;
/// and the newest of those made before it.
std::pair<std::filesystem::path, std::filesystem::path> plan_folder(const std::filesystem::path& picture) {
    std::error_code error;
    const std::filesystem::path whole = std::filesystem::absolute(picture, error);
    const std::string name = whole.stem().string() + "-plan";
    std::filesystem::path folder = whole.parent_path() / name, earlier;
    for (int k = 2; std::filesystem::exists(folder / "plan.toml", error); ++k) {
        earlier = folder / "plan.toml";
        folder = whole.parent_path() / (name + "-" + std::to_string(k));
    }
    return {folder, earlier};
}

} // namespace

const char* word_of(HandDoes h) {
    switch (h) {
    case HandDoes::choose: return "choose";
    case HandDoes::join: return "join";
    case HandDoes::part: return "part";
    case HandDoes::brush: return "brush";
    case HandDoes::draw_round: return "draw round";
    }
    return "";
}

void MakingPage::open(const std::filesystem::path& picture, const materials::Presets& presets, std::function<void()> news) {
    making_ = std::make_unique<Making>(picture, news);
    presets_ = &presets;
    form_ = std::make_unique<ActForm>(presets, std::move(news));
    acting_ = adding_ = mark_draws_ = false;
    acted_.clear();
    act_ = -1;
    followed_.reset();
    scroll_ = acts_scroll_ = {};
    mark.take_off();
    found_.reset();
    masses_ = photo_ = {};
    mass = 0;
    hand = HandDoes::choose;
    photo_shown_ = written_ = asks_about_acts_ = false;
    const auto [folder, earlier] = plan_folder(picture);
    folder_ = folder.string(), earlier_ = earlier;
    drafted = false;
    note_.clear();
    goes_on.reset();
    view = {};
}

int MakingPage::index_of(int number) const {
    if (found_)
        for (std::size_t k = 0; k < found_->masses.list.size(); ++k)
            if (found_->masses.list[k].number == number)
                return static_cast<int>(k);
    return -1;
}

void MakingPage::choose(int number) {
    mass = number;
    note_.clear();
    const int k = index_of(number);
    name_ = k >= 0 ? found_->names[static_cast<std::size_t>(k)] : "";
    ++edition_;
}

void MakingPage::take_found() {
    const auto newest = making_->found();
    if (!newest || newest == found_)
        return;
    found_ = newest;
    masses_ = making_->pixels();
    view.of_sheet(found_->sheet.width_mm, found_->sheet.height_mm);
    if (photo_.width == 0) {
        // The photograph in greys of its own lightness, as the masses were read off it.
        photo_.width = found_->map.width, photo_.height = found_->map.height;
        photo_.rgba.assign(4 * static_cast<std::size_t>(photo_.width) * static_cast<std::size_t>(photo_.height), 255);
        const grid::Picture p = grid::resized(grid::read_picture(making_->picture_file()), photo_.width, photo_.height);
        for (std::size_t k = 0; k < p.rgb.size() / 3; ++k)
            std::copy_n(p.rgb.begin() + static_cast<std::ptrdiff_t>(3 * k), 3,
                        photo_.rgba.begin() + static_cast<std::ptrdiff_t>(4 * k));
    }
    if (index_of(mass) < 0)
        mass = 0;
    std::erase_if(acted_, [&](int number) { return index_of(number) < 0; });
    ++edition_;
}

std::vector<int> MakingPage::hatched() const {
    std::vector<int> all;
    for (const int number : acting_ ? acted_ : std::vector<int>{mass})
        if (const int k = index_of(number); k >= 0)
            all.push_back(k);
    return all;
}

bool MakingPage::obey(Do what) {
    switch (what) {
    case Do::undo:
    case Do::redo: {
        const bool back = what == Do::undo;
        note_.clear();
        const auto own = making_->acts();
        if (acting_ && own && making_->writing() < 0)
            back ? own->undo() : own->redo();
        else if (!acting_ && (back ? making_->can_undo() : making_->can_redo()))
            back ? making_->undo() : making_->redo();
        return true;
    }
    case Do::add_act:
        if (!acting_)
            turn_to_acts();
        else if (!adding_)
            begin_act(mass != 0 ? std::vector<int>{mass} : std::vector<int>{});
        return true;
    case Do::mark: mark.turn(view); return true;
    case Do::fit: view.fit(); return true;
    case Do::closer: view.zoom(1.25, view.pane().middle_x(), view.pane().middle_y()); return true;
    case Do::farther: view.zoom(0.8, view.pane().middle_x(), view.pane().middle_y()); return true;
    case Do::compare: photo_shown_ = !photo_shown_; return true;
    case Do::let_go:
        if (mark_draws_)
            mark_draws_ = false, stroke_.clear();
        else if (mark.on())
            mark.take_off();
        else if (asks_about_acts_)
            asks_about_acts_ = false;
        else if (adding_)
            adding_ = false;
        else if (acting_)
            acting_ = false, ++edition_;
        else if (hand != HandDoes::choose)
            hand = HandDoes::choose;
        else if (mass != 0)
            choose(0);
        else
            wants_to_leave = true;
        return true;
    case Do::start_page: wants_to_leave = true; return true;
    default: return false;
    }
}

void MakingPage::let_go() {
    const auto stroke = std::exchange(stroke_, {});
    if (stroke.size() < 2 || mass == 0)
        return;
    if (hand == HandDoes::part)
        making_->split(mass, stroke.front().x_mm, stroke.front().y_mm, stroke.back().x_mm, stroke.back().y_mm);
    if (hand == HandDoes::brush)
        making_->brush(mass, stroke, brush_mm_ / 2);
    if (hand == HandDoes::draw_round && stroke.size() > 3)
        making_->lasso(mass, stroke);
    if (hand == HandDoes::part)
        hand = HandDoes::choose;
}

void MakingPage::touch(Ui& ui, const Rect& r) {
    const ImGuiIO& io = ImGui::GetIO();
    const Press p = press(ui, "picture", r, false);
    if (p.hovered && io.MouseWheel != 0)
        view.zoom(std::pow(1.18, static_cast<double>(io.MouseWheel)), io.MousePos.x, io.MousePos.y);
    const Spot_mm spot = view.mm(io.MousePos.x, io.MousePos.y, r);
    if (p.held && draws() && mass != 0 && !acting_) {
        const Spot_mm in{std::clamp(spot.x, 0.0, view.width_mm()), std::clamp(spot.y, 0.0, view.height_mm())};
        if (stroke_.empty() || std::hypot(in.x - stroke_.back().x_mm, in.y - stroke_.back().y_mm) > 0.3)
            stroke_.push_back({in.x, in.y});
    } else if (!stroke_.empty() && !mark_draws_)
        let_go();
    else if (p.held && ImGui::IsMouseDragging(0, 4))
        view.pan(io.MouseDelta.x, io.MouseDelta.y);
    else if (p.pressed && io.MouseDragMaxDistanceSqr[0] < 16)
        press_at(spot);
}

void MakingPage::press_at(Spot_mm spot) {
    if (!found_)
        return;
    const int number = making_->mass_at(spot.x, spot.y);
    if (acting_)
        return take_act_in(number);
    if (hand == HandDoes::join && mass != 0 && number != 0 && number != mass) {
        making_->merge(mass, number);
        hand = HandDoes::choose;
    } else if (!draws())
        choose(number);
}

bool MakingPage::press_mark() {
    if (!mark.on())
        return false;
    if (acting_ || !draws() || mass == 0)
        press_at(*mark.at());
    else if (!std::exchange(mark_draws_, !mark_draws_))
        stroke_ = {{mark.at()->x, mark.at()->y}};
    else
        let_go();
    return true;
}

bool MakingPage::move_mark(int dx, int dy) {
    mark.move(view, dx, dy);
    if (mark.on() && mark_draws_)
        stroke_.push_back({mark.at()->x, mark.at()->y});
    return mark.on();
}

std::size_t MakingPage::own_acts() const {
    const auto own = making_->acts();
    const auto plan = own && making_->writing() < 0 ? own->ground().plan : nullptr;
    return plan ? plan->steps.size() : 0;
}

std::map<std::string, std::string> MakingPage::state() const {
    std::map<std::string, std::string> s;
    if (!making_)
        return s;
    s["picture"] = making_->picture_file().string();
    s["masses"] = found_ ? std::to_string(found_->masses.list.size()) : "0";
    s["busy"] = making_->busy() ? "yes" : "no";
    s["groups"] = std::to_string(making_->groups());
    s["mass"] = std::to_string(mass);
    s["hand"] = word_of(hand);
    s["can undo"] = making_->can_undo() ? "yes" : "no";
    s["problem"] = making_->problem();
    s["writing"] = making_->writing() >= 0 ? "yes" : "no";
    if (const int k = index_of(mass); k >= 0) {
        s["mass name"] = found_->names[static_cast<std::size_t>(k)];
        s["mass group"] = std::to_string(found_->masses.list[static_cast<std::size_t>(k)].group);
    }
    s["note"] = note_;
    s["acting"] = acting_ ? "yes" : "no";
    s["adding"] = adding_ ? "yes" : "no";
    s["mark"] = mark.on() ? fmt::format("{:.0f} {:.0f}", mark.at()->x, mark.at()->y) : "none";
    s["place"] = mark.on() && found_ ? std::to_string(making_->mass_at(mark.at()->x, mark.at()->y)) : "0";
    s["acts"] = std::to_string(own_acts());
    s["folder"] = std::filesystem::path(folder_).filename().string();
    s["asks"] = asks_about_acts_ ? "about acts" : "nothing";
    if (adding_)
        form_->tell(s);
    return s;
}

} // namespace tidemark::viewer
