#include "viewer/studio/making.h"

#include "viewer/studio/brushed_detail.h"
#include "viewer/studio/making_detail.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tidemark::viewer {

using reference::PictureMasses;

Making::Making(const std::filesystem::path& picture, std::function<void()> news) : in_(std::make_shared<Inside>()) {
    Inside& in = *in_;
    in.picture_file = picture, in.news = std::move(news);
    std::error_code none;
    if (!std::filesystem::is_regular_file(picture, none)) throw grid::BadInput(picture.string(), "there is no such picture", "a PNG or JPEG file");
    in.thread = std::thread([&in] { in.loop(); });
    in.enqueue([&in] {
        in.trying([&] {
            const auto scale = [&](int width, int height) {
                in.sheet = reference::sheet_for(width, height, in.picture_file.string());
                return in.sheet.width_mm * reference::looked_at_pixels_per_mm(in.sheet) / width;
            };
            const grid::Photograph photograph = grid::read_photograph(in.picture_file, {}, {}, scale);
            scale(photograph.full_width, photograph.full_height);
            in.picture = photograph.picture;
            auto first = in.look(in.history[0]);
            const std::lock_guard lock(in.mutex);
            in.found = std::move(first);
        });
    });
}

Making::~Making() {
    in_->ends = true;
    in_->changed.notify_all();
    in_->thread.join();
}

const std::filesystem::path& Making::picture_file() const { return in_->picture_file; }

std::shared_ptr<const PictureMasses> Making::found() const {
    const std::lock_guard lock(in_->mutex);
    return in_->found;
}
bool Making::busy() const {
    const std::lock_guard lock(in_->mutex);
    return in_->at_work || !in_->work.empty();
}
std::string Making::problem() const {
    const std::lock_guard lock(in_->mutex);
    return in_->problem;
}
int Making::groups() const {
    const std::lock_guard lock(in_->mutex);
    return in_->history[in_->at].groups;
}

void Making::set_groups(int groups) {
    in_->change([groups](Choices& c, const PictureMasses&) {
        if (groups < reference::min_groups || groups > reference::max_groups) throw grid::BadInput("groups", text_of(groups), "2 to 7");
        c.groups = groups, c.painted.reset(), c.edits.clear(); // other groups, other masses
    });
}

void Making::set_simplify(double mm) {
    in_->change([mm](Choices& c, const PictureMasses&) {
        if (!(mm >= 0 && mm <= 10)) throw grid::BadInput("simplify", fmt::format("{:g} mm", mm), "0 to 10 mm");
        c.simplify_mm = mm, c.painted.reset(), c.edits.clear();
    });
}

int Making::mass_at(double x_mm, double y_mm) const {
    const auto f = found();
    if (!f) return 0;
    const int x = static_cast<int>(std::floor(x_mm * f->pixels_per_mm)), y = static_cast<int>(std::floor(y_mm * f->pixels_per_mm));
    if (x < 0 || y < 0 || x >= f->masses.width || y >= f->masses.height) return 0;
    return f->masses.list[static_cast<std::size_t>(f->masses.at(x, y))].number;
}

void Making::merge(int a, int b) {
    in_->change([a, b](Choices& c, const PictureMasses&) {
        c.edits.push_back({reference::MergeMasses{text_of(a), text_of(b)}, fmt::format("masses {} and {} merged", a, b)});
    });
}
void Making::push(int mass, int by) {
    in_->change([mass, by](Choices& c, const PictureMasses&) {
        c.edits.push_back({reference::PushMass{text_of(mass), by}, fmt::format("mass {} {}", mass, by > 0 ? "lighter" : "darker")});
    });
}
void Making::split(int mass, double x1_mm, double y1_mm, double x2_mm, double y2_mm) {
    in_->change([=](Choices& c, const PictureMasses& f) {
        const auto on = [](double mm, double side_mm) { return std::clamp(mm, 0.0, side_mm); }; // a hand goes beyond the sheet
        const reference::SheetSize& s = f.sheet;
        c.edits.push_back({reference::SplitMass{text_of(mass), on(x1_mm, s.width_mm), on(y1_mm, s.height_mm), on(x2_mm, s.width_mm), on(y2_mm, s.height_mm)},
                           fmt::format("mass {} split", mass)});
    });
}
void Making::name(int mass, const std::string& name) {
    in_->change([mass, name](Choices& c, const PictureMasses&) {
        c.edits.push_back({reference::NameMass{text_of(mass), name}, fmt::format("mass {} called {}", mass, name)});
    });
}
void Making::brush(int mass, const std::vector<reference::Point>& stroke, double radius_mm) {
    in_->change([=](Choices& c, const PictureMasses& f) {
        paint(c, f, group_of(f, mass), [&](double x, double y) { return near_stroke(stroke, radius_mm, x, y); });
    });
}
void Making::lasso(int mass, const std::vector<reference::Point>& outline) {
    in_->change([=](Choices& c, const PictureMasses& f) {
        if (outline.size() < 3) throw grid::BadInput("outline", "fewer than three points", "an outline round what is to change");
        paint(c, f, group_of(f, mass), [&](double x, double y) { return within_outline(outline, x, y); });
    });
}

bool Making::can_undo() const {
    const std::lock_guard lock(in_->mutex);
    return in_->at > 0;
}
bool Making::can_redo() const {
    const std::lock_guard lock(in_->mutex);
    return in_->at + 1 < in_->history.size();
}
void Making::undo() { in_->go_to(-1); }
void Making::redo() { in_->go_to(1); }

Pixels Making::pixels() const {
    const auto f = found();
    if (!f) return {};
    const int w = f->masses.width, h = f->masses.height;
    Moment m; // greys as the looks have them
    m.nx = w, m.ny = h, m.parts = part_dried;
    m.lstar_code.resize(static_cast<std::size_t>(w) * h);
    for (std::size_t p = 0; p < m.lstar_code.size(); ++p) {
        const float mean = f->groups.mean_lstar[f->groups.group[p]];
        m.lstar_code[p] = lstar_code(std::isnan(mean) ? 50 : mean);
    }
    Pixels out = pixels_of(m, LookKind::values, {});
    constexpr std::uint8_t line[] = {176, 64, 28}; // told from any grey by its lightness on one side at least
    for (int y = 0; y < h; ++y)
        for (int x = 0; x < w; ++x) {
            const bool ends = (x + 1 < w && f->masses.at(x, y) != f->masses.at(x + 1, y)) || (y + 1 < h && f->masses.at(x, y) != f->masses.at(x, y + 1));
            if (ends) std::copy_n(line, 3, &out.rgba[4 * (static_cast<std::size_t>(y) * w + x)]);
        }
    return out;
}

void Making::write_plan(const std::filesystem::path& folder) {
    {
        const std::lock_guard lock(in_->mutex);
        in_->writing = 0.05, in_->written.clear();
    }
    in_->enqueue([in = in_.get(), folder] { in->trying([&] { in->write(folder); }); });
}
void Making::begin_acts(const materials::Presets& presets) {
    if (acts()) return;
    in_->enqueue([in = in_.get(), &presets] { in->trying([&] { in->begin_acts(presets); }); });
}
std::shared_ptr<OwnPlan> Making::acts() const {
    const std::lock_guard lock(in_->mutex);
    return in_->own;
}
void Making::write_acts(const std::filesystem::path& folder) {
    {
        const std::lock_guard lock(in_->mutex);
        in_->writing = 0.5, in_->written.clear();
    }
    in_->enqueue([in = in_.get(), folder] { in->trying([&] { in->write_acts(folder); }); });
}
double Making::writing() const {
    const std::lock_guard lock(in_->mutex);
    return in_->writing;
}
std::filesystem::path Making::written() const {
    const std::lock_guard lock(in_->mutex);
    return in_->written;
}

} // namespace tidemark::viewer
