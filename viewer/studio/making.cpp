#include "viewer/studio/making.h"

#include "grid/files.h"
#include "grid/problem.h"
#include "grid/steady.h"
#include "reference/draft.h"
#include "rehearsal/open_time.h"
#include "viewer/studio/moment_maker_detail.h"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <condition_variable>
#include <deque>
#include <map>
#include <mutex>
#include <omp.h>
#include <thread>

namespace tidemark::viewer {

namespace {

using reference::Edit;
using reference::PictureMasses;

/// All that a painter has chosen; what is found follows from it.
struct Choices {
    int groups = 3;
    double simplify_mm = 1.5;
    std::shared_ptr<const reference::Groups> painted; ///< groups as brushed; none: as squinted
    std::vector<Edit> edits;
};
using Change = std::function<void(Choices&, const PictureMasses&)>;

std::string text_of(int mass) { return std::to_string(mass); }

int group_of(const PictureMasses& found, int mass) {
    for (const reference::Mass& m : found.masses.list)
        if (m.number == mass) return m.group;
    throw grid::BadInput("mass " + text_of(mass), "there is none of that number", "a mass of the picture");
}

double squared_from(const reference::Point& a, const reference::Point& b, double x, double y) {
    const double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, length2 = dx * dx + dy * dy;
    const double t = length2 > 0 ? std::clamp(((x - a.x_mm) * dx + (y - a.y_mm) * dy) / length2, 0.0, 1.0) : 0;
    return std::pow(x - a.x_mm - t * dx, 2) + std::pow(y - a.y_mm - t * dy, 2);
}

bool near_stroke(const std::vector<reference::Point>& stroke, double radius_mm, double x, double y) {
    for (std::size_t k = 0; k < stroke.size(); ++k)
        if (squared_from(stroke[k], stroke[std::min(k + 1, stroke.size() - 1)], x, y) <= radius_mm * radius_mm) return true;
    return false;
}

/// Even-odd.
bool within(const std::vector<reference::Point>& outline, double x, double y) {
    bool in = false;
    for (std::size_t k = 0, last = outline.size() - 1; k < outline.size(); last = k++) {
        const reference::Point &a = outline[k], &b = outline[last];
        if ((a.y_mm > y) != (b.y_mm > y) && x < (b.x_mm - a.x_mm) * (y - a.y_mm) / (b.y_mm - a.y_mm) + a.x_mm) in = !in;
    }
    return in;
}

/// Names go to the masses that have most of what they named.
std::vector<Edit> names_carried(const PictureMasses& before, const reference::Masses& after) {
    std::vector<Edit> names;
    std::vector<bool> taken(after.list.size());
    for (std::size_t k = 0; k < before.names.size(); ++k) {
        if (before.names[k].empty()) continue;
        std::map<int, std::int64_t> shared;
        for (std::size_t p = 0; p < after.of.size(); ++p)
            if (before.masses.of[p] == static_cast<int>(k)) ++shared[after.of[p]];
        int best = -1;
        for (const auto& [mass, pixels] : shared)
            if (!taken[static_cast<std::size_t>(mass)] && (best < 0 || pixels > shared[best])) best = mass;
        if (best < 0) continue;
        taken[static_cast<std::size_t>(best)] = true;
        const int number = after.list[static_cast<std::size_t>(best)].number;
        names.push_back({reference::NameMass{text_of(number), before.names[k]}, fmt::format("mass {} called {}", number, before.names[k])});
    }
    return names;
}

/// Pixels for which `covers` (x, y in mm) holds become of that group.
void paint(Choices& c, const PictureMasses& found, int group, const std::function<bool(double, double)>& covers) {
    auto groups = std::make_shared<reference::Groups>(found.groups);
    for (int y = 0; y < groups->height; ++y)
        for (int x = 0; x < groups->width; ++x)
            if (covers((x + 0.5) / found.pixels_per_mm, (y + 0.5) / found.pixels_per_mm))
                groups->group[static_cast<std::size_t>(y) * groups->width + x] = static_cast<std::uint8_t>(group);
    c.edits = names_carried(found, find_masses(*groups, found.map));
    c.painted = std::move(groups);
}

} // namespace

struct Making::Inside {
    std::filesystem::path picture_file;
    std::function<void()> news;
    grid::Picture picture;
    reference::SheetSize sheet;
    std::atomic<bool> ends{false};
    std::thread thread;

    mutable std::mutex mutex; ///< over what follows
    std::condition_variable changed;
    std::deque<std::function<void()>> work;
    bool at_work = true;
    std::shared_ptr<const PictureMasses> found;
    std::vector<Choices> history{Choices{}};
    std::size_t at = 0;
    std::string problem;
    double writing = -1;
    std::filesystem::path written;

    // Of the working thread alone: what was squinted last, to begin edits from.
    std::shared_ptr<const PictureMasses> squinted;
    Choices squinted_by;

    void loop();
    void enqueue(std::function<void()>);
    reference::Looking looking(const Choices&) const;
    std::shared_ptr<const PictureMasses> look(const Choices&);
    void change(const Change&);
    void go_to(std::ptrdiff_t by);
    void write(const std::filesystem::path& folder);
    template <class F> void trying(F&&);
};

void Making::Inside::loop() {
    step_back();
    grid::have_threads(omp_get_num_procs());
    for (;;) {
        std::function<void()> next;
        {
            std::unique_lock lock(mutex);
            at_work = false;
            changed.wait(lock, [&] { return ends || !work.empty(); });
            if (ends) return;
            next = std::move(work.front());
            work.pop_front();
            at_work = true;
        }
        next();
        if (news) news();
    }
}

void Making::Inside::enqueue(std::function<void()> f) {
    {
        const std::lock_guard lock(mutex);
        work.push_back(std::move(f));
    }
    changed.notify_all();
}

/// What went wrong is told of; all stays as it was.
template <class F> void Making::Inside::trying(F&& f) {
    std::string wrong;
    try {
        f();
    } catch (const grid::BadInput& bad) {
        wrong = bad.problems().front().line();
    } catch (const std::exception& e) {
        wrong = e.what();
    }
    const std::lock_guard lock(mutex);
    problem = wrong;
    writing = -1;
}

reference::Looking Making::Inside::looking(const Choices& c) const {
    reference::Looking how;
    how.sheet = sheet, how.groups = c.groups, how.squint.simplify_mm = c.simplify_mm;
    return how;
}

/// Squinting anew only when that has changed by which it is done.
std::shared_ptr<const PictureMasses> Making::Inside::look(const Choices& c) {
    if (!squinted || squinted_by.groups != c.groups || squinted_by.simplify_mm != c.simplify_mm) {
        squinted = std::make_shared<const PictureMasses>(reference::masses_in(picture, looking(c)));
        squinted_by = c;
    }
    auto out = std::make_shared<PictureMasses>(*squinted);
    if (c.painted) out->groups = *c.painted;
    const reference::Masses masses = c.painted ? find_masses(*c.painted, out->map) : out->masses;
    reference::EditedMasses edits = edited(masses, out->map, out->groups.count, out->pixels_per_mm, c.edits);
    out->masses = std::move(edits.masses), out->names = std::move(edits.names), out->renumbered = std::move(edits.renumbered);
    out->groups = groups_of(out->masses, out->map, out->groups);
    return out;
}

void Making::Inside::change(const Change& make) {
    enqueue([this, make] {
        trying([&] {
            Choices c = history[at]; // only this thread writes them
            if (found) make(c, *found);
            auto next = look(c);
            const std::lock_guard lock(mutex);
            if (found) {
                history.resize(at + 1);
                history.push_back(std::move(c));
                ++at;
            }
            found = std::move(next);
        });
    });
}

void Making::Inside::go_to(std::ptrdiff_t by) {
    enqueue([this, by] {
        trying([&] {
            const auto to = static_cast<std::ptrdiff_t>(at) + by;
            if (to < 0 || to >= static_cast<std::ptrdiff_t>(history.size())) return;
            auto next = look(history[static_cast<std::size_t>(to)]);
            const std::lock_guard lock(mutex);
            at = static_cast<std::size_t>(to);
            found = std::move(next);
        });
    });
}

void Making::Inside::write(const std::filesystem::path& folder) {
    std::error_code none;
    if (std::filesystem::exists(folder / "plan.toml", none)) throw grid::BadInput((folder / "plan.toml").string(), "a plan is here already", "another folder");
    if (!found) throw grid::BadInput(picture_file.string(), "its masses are not known yet", "a moment later");
    const Choices& c = history[at];
    reference::Looking how = looking(c);
    how.edits = c.edits;
    if (c.painted) how.masks = reference::group_masks(*c.painted), how.made_from = *c.painted;
    const auto presets = materials::Presets::read(grid::presets_folder());
    rehearsal::OpenPatch patch; // as tidemark draft has it
    patch.paper = *presets.paper("cold-pressed-300"), patch.room = *presets.room("temperate-studio"), patch.pigment = *presets.pigment("PB29");
    std::map<double, double> played;
    const auto open_for = [&](double film_um) {
        if (const auto before = played.find(film_um); before != played.end()) return before->second;
        {
            const std::lock_guard lock(mutex);
            writing = std::min(0.9, writing + 0.15);
        }
        if (news) news();
        patch.film_m = film_um * 1e-6;
        return played[film_um] = rehearsal::open_time(patch).joins_s;
    };
    const reference::Draft draft = reference::draft_plan(picture, *found, how, picture_file.filename().string(), open_for);
    grid::OutputFolder out(folder);
    reference::write_draft(draft, out);
    out.commit();
    const std::lock_guard lock(mutex);
    written = folder / "plan.toml";
}

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
        paint(c, f, group_of(f, mass), [&](double x, double y) { return within(outline, x, y); });
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
double Making::writing() const {
    const std::lock_guard lock(in_->mutex);
    return in_->writing;
}
std::filesystem::path Making::written() const {
    const std::lock_guard lock(in_->mutex);
    return in_->written;
}

} // namespace tidemark::viewer
