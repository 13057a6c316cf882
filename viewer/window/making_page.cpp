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

/// Where plans are put unless the painter says otherwise: beside the picture, else at home.
std::filesystem::path plan_folder(const std::filesystem::path& picture) {
    std::error_code error;
    const std::filesystem::path whole = std::filesystem::absolute(picture, error);
    return whole.parent_path() / (whole.stem().string() + "-plan");
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

void MakingPage::open(const std::filesystem::path& picture, std::function<void()> news) {
    making_ = std::make_unique<Making>(picture, std::move(news));
    found_.reset();
    masses_ = photo_ = {};
    mass = 0;
    hand = HandDoes::choose;
    photo_shown_ = written_ = false;
    folder_ = plan_folder(picture).string();
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
    ++edition_;
}

bool MakingPage::obey(Do what) {
    switch (what) {
    case Do::undo:
        if (making_->can_undo())
            making_->undo();
        return true;
    case Do::redo:
        if (making_->can_redo())
            making_->redo();
        return true;
    case Do::fit: view.fit(); return true;
    case Do::closer: view.zoom(1.25, view.pane().middle_x(), view.pane().middle_y()); return true;
    case Do::farther: view.zoom(0.8, view.pane().middle_x(), view.pane().middle_y()); return true;
    case Do::compare: photo_shown_ = !photo_shown_; return true;
    case Do::let_go:
        if (hand != HandDoes::choose)
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
    const bool draws = hand == HandDoes::part || hand == HandDoes::brush || hand == HandDoes::draw_round;
    if (p.held && draws && mass != 0) {
        const Spot_mm in{std::clamp(spot.x, 0.0, view.width_mm()), std::clamp(spot.y, 0.0, view.height_mm())};
        if (stroke_.empty() || std::hypot(in.x - stroke_.back().x_mm, in.y - stroke_.back().y_mm) > 0.3)
            stroke_.push_back({in.x, in.y});
    } else if (!stroke_.empty())
        let_go();
    else if (p.held && ImGui::IsMouseDragging(0, 4))
        view.pan(io.MouseDelta.x, io.MouseDelta.y);
    else if (p.pressed && found_ && io.MouseDragMaxDistanceSqr[0] < 16) {
        const int number = making_->mass_at(spot.x, spot.y);
        if (hand == HandDoes::join && mass != 0 && number != 0 && number != mass) {
            making_->merge(mass, number);
            hand = HandDoes::choose;
        } else if (!draws)
            choose(number);
    }
}

void MakingPage::draw_mat(Ui& ui, SDL_Renderer* renderer, const Rect& r) {
    view.place(r);
    touch(ui, r);
    const Key key{r.width(), r.height(), view.px_per_mm(), view.middle().x, view.middle().y, edition_, mass, photo_shown_};
    if (!(key == drawn_) || shown_.texture() == nullptr) {
        canvas_.size(static_cast<int>(r.width()), static_cast<int>(r.height()), ui.theme.mat);
        draw_sheet(canvas_, r, view, r, photo_shown_ ? photo_ : masses_, r.x0, r.x1);
        if (const int k = index_of(mass); k >= 0) {
            // The chosen mass is hatched, whatever is below: its pixels as the masses have them.
            const reference::Masses& m = found_->masses;
            for (int y = 0; y < canvas_.height; ++y)
                for (int x = 0; x < canvas_.width; ++x) {
                    const Spot_mm at = view.mm(r.x0 + static_cast<float>(x), r.y0 + static_cast<float>(y), r);
                    const int i = static_cast<int>(at.x / view.width_mm() * m.width),
                              j = static_cast<int>(at.y / view.height_mm() * m.height);
                    if (at.x < 0 || at.y < 0 || i >= m.width || j >= m.height || m.at(i, j) != k)
                        continue;
                    const int stripe = (x + y) % 12;
                    if (stripe < 3)
                        canvas_.blend(x, y, stripe == 1 ? rgb(0xFFFFFF) : ui.theme.dark ? rgb(0x2F5A6B) : ui.theme.accent, 0.9F);
                }
        }
        shown_.take(renderer, canvas_);
        drawn_ = key;
    }
    ui.paint->AddImage(shown_.texture(), ImVec2(r.x0, r.y0), ImVec2(r.x1, r.y1));
    // The stroke in the hand, as squares along it.
    ImGui::PushClipRect(ImVec2(r.x0, r.y0), ImVec2(r.x1, r.y1), true);
    const float half = hand == HandDoes::brush ? std::max(2.0F, static_cast<float>(brush_mm_ / 2 * view.px_per_mm())) : 2.5F;
    for (const reference::Point& s : stroke_) {
        float x = 0, y = 0;
        view.px({s.x_mm, s.y_mm}, r, x, y);
        fill(ui, {x - half, y - half, x + half, y + half}, rgb(0xB4400A, hand == HandDoes::brush ? 90 : 255));
    }
    ImGui::PopClipRect();
    if (!found_)
        write(ui, r.x0 + 1.5F * ui.em, r.y0 + 1.5F * ui.em, ui.theme.mat_ink, "Squinting …");
    else if (making_->busy())
        write(ui, r.x0 + 1.5F * ui.em, r.y0 + 0.5F * ui.em, ui.theme.mat_ink, "Squinting again …", ui.small);
}

float MakingPage::draw_chosen(Ui& ui, float x, float y, float width) {
    const float em = ui.em, top = y;
    const int k = index_of(mass);
    if (k < 0) {
        y += write_wrapped(ui, x, y, width, ui.theme.quiet,
                           "Click a mass to choose it. Then it can be joined with another, parted, made lighter or darker, "
                           "and its edge changed.");
        return y + em - top;
    }
    const reference::Mass& m = found_->masses.list[static_cast<std::size_t>(k)];
    const std::string& named = found_->names[static_cast<std::size_t>(k)];
    write_within(ui, x, y, width, ui.theme.ink, named.empty() ? fmt::format("mass {}", mass) : named, ui.strong);
    y += 1.5F * em;
    write(ui, x, y, ui.theme.quiet,
          fmt::format("L* {:.0f} on the mean, {:.0f} cm²", m.mean_lstar,
                      static_cast<double>(m.pixels) / found_->pixels_per_mm / found_->pixels_per_mm / 100));
    y += 1.9F * em;
    if (field(ui, "name", name_, x, y, width * 0.6F) && !name_.empty())
        making_->name(mass, name_);
    float bx = x + width * 0.6F + 0.6F * em;
    if (button(ui, "Name it", bx, y) && !name_.empty())
        making_->name(mass, name_);
    y += 2.7F * em;
    bx = x;
    if (button(ui, "Lighter", bx, y))
        making_->push(mass, 1);
    if (button(ui, "Darker", bx, y))
        making_->push(mass, -1);
    y += 2.7F * em;
    bx = x - 0.45F * em;
    for (const auto& [does, label] : {std::pair{HandDoes::join, "join with …"}, {HandDoes::part, "part along a line"},
                                      {HandDoes::brush, "brush more of it"}, {HandDoes::draw_round, "draw round more of it"}}) {
        if (word(ui, label, bx, y, hand == does))
            hand = hand == does ? HandDoes::choose : does;
        bx = x - 0.45F * em;
        y += 1.75F * em;
    }
    const char* told = hand == HandDoes::join    ? "Now click the mass it becomes one with."
                       : hand == HandDoes::part  ? "Draw a line across it."
                       : hand == HandDoes::brush ? "What the brush goes over becomes part of it. To take away, choose the "
                                                   "neighbour and brush that."
                       : hand == HandDoes::draw_round ? "What you draw round becomes part of it."
                                                      : "";
    if (*told != 0)
        y += write_wrapped(ui, x, y, width, ui.theme.accent, told) + 0.4F * em;
    if (hand == HandDoes::brush) {
        bool done = false;
        slider(ui, "brush", fmt::format("{:.0f} mm", brush_mm_), x, y, width, brush_mm_, 1, 20, 1, done);
        y += slider_height(ui);
    }
    return y + 0.6F * em - top;
}

void MakingPage::draw_margin(Ui& ui, const Rect& r) {
    const float em = ui.em, x = r.x0 + 1.1F * em, width = r.width() - 2.2F * em;
    float y = r.y0 + em;
    if (!making_->problem().empty())
        y += write_wrapped(ui, x, y, width, ui.theme.warning, making_->problem()) + 0.6F * em;
    if (!note_.empty())
        y += write_wrapped(ui, x, y, width, note_is_wrong_ ? ui.theme.warning : ui.theme.ink, note_) + 0.6F * em;
    write(ui, x, y, ui.theme.quiet, "value groups");
    float bx = x + 7 * em;
    for (int n = 2; n <= 5; ++n)
        if (word(ui, std::to_string(n), bx, y, making_->groups() == n, nullptr, fmt::format("{} groups", n)))
            making_->set_groups(n);
    y += 2 * em;
    double simplify = turning_mm_ > 0 ? turning_mm_ : simplify_mm_;
    bool done = false;
    if (slider(ui, "as simple as", fmt::format("{:.1f} mm", simplify), x, y, width, simplify, 0.5, 8, 0.5, done))
        turning_mm_ = simplify;
    if (done && turning_mm_ > 0) {
        simplify_mm_ = std::exchange(turning_mm_, 0);
        making_->set_simplify(simplify_mm_);
    }
    y += slider_height(ui) + 0.4F * em;
    fill(ui, {x, y, x + width, y + 1}, ui.theme.rule);
    y += 0.8F * em;
    y += draw_chosen(ui, x, y, width);
    // The way on, at the foot.
    y = std::max(y, r.y1 - 8.6F * em);
    fill(ui, {x, y, x + width, y + 1}, ui.theme.rule);
    y += 0.8F * em;
    write(ui, x, y, ui.theme.quiet, "the plan's folder");
    y += 1.6F * em;
    field(ui, "folder", folder_, x, y, width);
    y += 2.6F * em;
    if (making_->writing() >= 0) {
        fill(ui, {x, y + 0.6F * em, x + width, y + 0.8F * em}, ui.theme.rule);
        fill(ui, {x, y + 0.6F * em, x + width * static_cast<float>(std::min(1.0, making_->writing())), y + 0.8F * em},
             ui.theme.accent);
        return;
    }
    bx = x;
    if (found_ && button(ui, "Make the plan", bx, y, true))
        attempt(*this, [&] {
            making_->write_plan(folder_);
            written_ = false;
        });
}

void MakingPage::draw(Ui& ui, SDL_Renderer* renderer, const Rect& all) {
    if (!making_)
        return;
    take_found();
    if (!written_ && making_->writing() < 0 && !making_->written().empty()) {
        written_ = true;
        goes_on = making_->written();
    }
    const float em = ui.em, top = std::round(2.9F * em), margin = std::round(std::min(22 * em, 0.4F * all.width()));
    fill(ui, all, ui.theme.ground);
    const Rect mat{all.x0, all.y0 + top, all.x1 - margin, all.y1};
    float x = all.x0 + 0.6F * em;
    const float y = std::round(all.y0 + 0.95F * em);
    if (word(ui, "‹ plans", x, y, false, nullptr, "first page"))
        wants_to_leave = true;
    x = write_within(ui, x + 0.5F * em, y, 14 * em, ui.theme.ink, making_->picture_file().filename().string(), ui.strong) + em;
    if (word(ui, "its masses", x, y, !photo_shown_))
        photo_shown_ = false;
    if (word(ui, "the photograph", x, y, photo_shown_, "c"))
        photo_shown_ = true;
    if (making_->can_undo() && word(ui, "undo", x, y, false, "Ctrl z"))
        making_->undo();
    if (making_->can_redo() && word(ui, "redo", x, y, false, "Ctrl y"))
        making_->redo();
    fill(ui, {all.x0, all.y0 + top - 1, all.x1, all.y0 + top}, ui.theme.rule);
    draw_mat(ui, renderer, mat);
    draw_margin(ui, {mat.x1, mat.y0, all.x1, all.y1});
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
    return s;
}

} // namespace tidemark::viewer
