#include "trust/random_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

namespace tidemark::trust {
namespace {

/// The standard's distributions differ from library to library; its generator does not.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : next_(seed) {}
    double unit() { return static_cast<double>(next_() >> 11) * 0x1p-53; }
    double in(double lo, double hi) { return lo + (hi - lo) * unit(); }
    int below(int n) { return static_cast<int>(next_() % static_cast<std::uint64_t>(n)); }
    bool chance(double p) { return unit() < p; }
    template <class T> const T& of(const std::vector<T>& all) { return all[static_cast<std::size_t>(below(static_cast<int>(all.size())))]; }
    /// Mostly from lo to hi, evenly by ratio; one time in twelve an end of the whole range.
    double number(double lo, double hi, double least, double most) {
        if (chance(1 / 12.0)) return chance(0.5) ? least : most;
        return lo * std::pow(hi / lo, unit());
    }

  private:
    std::mt19937_64 next_;
};

/// A tenth of a micrometre is enough; and the text says all there is.
std::string mm(double x) { return fmt::format("{:.4f}", x); }
std::string point(double x, double y) { return fmt::format("[{}, {}]", mm(x), mm(y)); }
std::string clock(double s) {
    const int whole = static_cast<int>(s);
    return fmt::format("\"{}:{:02}\"", whole / 60, whole % 60);
}

class Writer {
  public:
    Writer(std::uint64_t seed, const materials::Presets& presets) : dice_(seed), presets_(presets) {}

    RandomPlan write() {
        even_ = dice_.chance(0.5);
        sheet(), mixes(), areas();
        const int steps = 2 + dice_.below(6);
        for (int k = 0; k < steps; ++k) step(k);
        return {text_, even_, cell_};
    }

  private:
    Dice dice_;
    const materials::Presets& presets_;
    std::string text_;
    double width_ = 0, height_ = 0, cell_ = 1.5; // mm
    bool even_ = false;
    std::vector<std::string> mixes_{"water"}, areas_, reserved_;

    template <class... T> void line(fmt::format_string<T...> format, T&&... values) {
        text_ += fmt::format(format, std::forward<T>(values)...) + "\n";
    }

    void sheet() {
        // Whole cells; of a millimetre the sheet has more tiles than one, and takes four times as long.
        if (dice_.chance(0.05)) cell_ = 1;
        width_ = 30 + cell_ * dice_.below(cell_ > 1 ? 2 : 7), height_ = 30 + cell_ * dice_.below(cell_ > 1 ? 2 : 7);
        line("tidemark = 1\n[sheet]\nsize_mm = [{}, {}]\npaper = \"{}\"", width_, height_, dice_.of(presets_.papers).id);
        const std::string room = dice_.of(presets_.rooms).id;
        if (dice_.chance(0.3))
            line("room = {{ base = \"{}\", temperature_C = {:.2f}, humidity_pct = {:.2f}, air_m_s = {:.3f}, sun_W_m2 = {:.1f} }}", room,
                 dice_.in(12, 35), dice_.in(20, 80), dice_.number(0.05, 2, 0, 6), dice_.chance(0.5) ? 0.0 : dice_.in(0, 800));
        else
            line("room = \"{}\"", room);
        line("board = \"{}\"\nseed = {}", dice_.of<std::string>({"sealed", "absorbent", "open"}), dice_.below(1000000));
        if (!even_ && dice_.chance(0.5)) line("tilt_deg = {:.2f}\ntilt_direction_deg = {:.1f}", dice_.number(1, 20, 0, 30), dice_.in(-180, 180));
    }

    void mixes() {
        const int count = 1 + dice_.below(3);
        for (int k = 0; k < count; ++k) {
            const std::string name = fmt::format("mix-{}", k);
            mixes_.push_back(name);
            line("[mix.{}]", name);
            std::vector<std::string> used;
            for (int n = 1 + dice_.below(3); n > 0; --n) {
                const std::string id = dice_.of(presets_.pigments).id;
                if (std::find(used.begin(), used.end(), id) != used.end()) continue;
                used.push_back(id);
                line("\"{}\" = {:.4f}", id, dice_.number(0.05, 4, 0.001, 12));
            }
            if (dice_.chance(0.3)) line("gum_pct = {:.3f}", dice_.in(0, 5));
        }
    }

    std::string points(int n) {
        std::string all;
        for (int k = 0; k < n; ++k) all += (k ? ", " : "") + point(dice_.in(-4, width_ + 4), dice_.in(-4, height_ + 4));
        return "[" + all + "]";
    }

    void areas() {
        const int count = 1 + dice_.below(4);
        for (int k = 0; k < count; ++k) {
            const std::string name = fmt::format("area-{}", k);
            line("[area.{}]", name);
            const double x = dice_.in(2, 0.6 * width_), y = dice_.in(2, 0.6 * height_);
            const int form = dice_.below(k > 0 ? 5 : 4);
            switch (form) {
            case 0: line("rectangle_mm = [{}, {}, {}, {}]", mm(x), mm(y), mm(dice_.in(4, 30)), mm(dice_.in(4, 30))); break;
            case 1: line("ellipse_mm = [{}, {}, {}, {}]", mm(x + 4), mm(y + 4), mm(dice_.in(4, 36)), mm(dice_.in(4, 36))); break;
            case 2: // three corners well apart, and more anywhere
                line("polygon_mm = [{}, {}, {}, {}]", point(x - 4, y + 3), point(x + 14, y - 2), point(x + 6, y + 16),
                     point(x + dice_.in(-5, 3), y + dice_.in(8, 12)));
                break;
            case 3: line("line_mm = {}\nwidth_mm = {}", "[" + point(0.4 * width_, 0.5 * height_) + ", " + points(2).substr(1), mm(dice_.in(2, 12))); break;
            default: { // of one alone and the sheet, so that something is left
                const bool other = dice_.chance(0.5);
                line("{} = [\"sheet\", \"{}\"]", other ? "minus" : "and", dice_.of(areas_));
            }
            }
            if (form < 4 && dice_.chance(0.3)) line("soft_mm = {}", mm(dice_.number(0.5, 6, 0, 12)));
            areas_.push_back(name);
        }
    }

    void area() {
        if (dice_.chance(0.7)) line("area = \"{}\"", dice_.of(areas_));
    }
    void mix() { line("mix = \"{}\"", dice_.of(mixes_)); }
    void pace(double lo, double hi, double least, double most) {
        line("pace_cm2_s = {:.3f}", even_ ? most : dice_.number(lo, hi, least, most));
    }

    void start(int k) {
        if (k == 0) return;
        switch (dice_.below(4)) {
        case 0: line("after = \"s{}\"\nwait = {}", dice_.below(k), clock(dice_.in(0, 600))); break;
        case 1:
            line("when = {{ is = \"{}\", longest = {} }}", dice_.of<std::string>({"moist", "damp", "dry"}), clock(dice_.in(60, 2400)));
            break;
        default: break; // follows the one above
        }
    }

    void wash() {
        mix(), area();
        line("film_um = {:.2f}", dice_.number(40, 220, 10, 400));
        const int travel = dice_.below(even_ ? 3 : 4);
        if (travel == 1) // in the middle of a cell, so that a mirror finds one as near
            line("from = {}\npace_cm2_s = {:.3f}", point(cell_ * (0.5 + dice_.below(static_cast<int>(width_ / cell_))), cell_ * (0.5 + dice_.below(static_cast<int>(height_ / cell_)))),
                 dice_.number(2, 20, 0.5, 100));
        else if (travel == 2)
            line("strokes = [{}, {}]\npace_cm2_s = {:.3f}", points(2), points(3), dice_.number(2, 20, 0.5, 100));
        else {
            if (travel == 3) line("travel = \"downhill\"");
            pace(2, 20, 0.5, 100);
        }
        if (!even_ && dice_.chance(0.3)) line("bead = \"pick-up\"");
        if (!even_ && dice_.chance(0.3)) line("brush = \"{}\"\nrefill_s = {:.2f}", dice_.of(presets_.brushes).id, dice_.in(0, 6));
    }

    void dry() {
        if (dice_.chance(0.6)) line("until = \"{}\"", dice_.of<std::string>({"moist", "damp", "dry"}));
        line("longest = {}", clock(dice_.in(10, 1800)));
        if (!dice_.chance(0.5)) return;
        line("warm_air = true\nair_C = {:.1f}\nair_m_s = {:.2f}", dice_.number(30, 60, 20, 80), dice_.number(0.5, 4, 0.1, 10));
        if (!even_ && dice_.chance(0.3)) line("blows_deg = {:.1f}", dice_.in(-180, 180));
    }

    void step(int k) {
        line("[[step]]\nname = \"s{}\"", k);
        start(k);
        static const std::vector<std::string> all{"wet", "wash", "wash", "wash", "charge", "lift", "spatter", "spray", "drybrush", "soften",
                                                  "reserve", "uncover", "body", "tilt", "dry"},
            even{"wet", "wash", "wash", "wash", "lift", "drybrush", "soften", "reserve", "uncover", "body", "dry"};
        std::string act = k == 0 && dice_.chance(0.5) ? "wet" : dice_.of(even_ ? even : all);
        if (act == "uncover" && reserved_.empty()) act = "reserve";
        line("do = \"{}\"", act);
        if (act == "wash") return wash();
        if (act == "dry") return dry();
        if (act == "tilt") return line("angle_deg = {:.2f}\ndirection_deg = {:.1f}", dice_.number(1, 20, 0, 30), dice_.in(-180, 180));
        if (act == "soften") {
            line("area = \"{}\"\nwidth_mm = {}\nwater_g_m2 = {:.2f}\nspeed_cm_s = {:.2f}", dice_.of(areas_), mm(dice_.number(3, 12, 1, 30)),
                 dice_.number(15, 80, 5, 200), even_ ? 50.0 : dice_.number(1, 10, 0.2, 50));
            return;
        }
        if (act == "reserve" || act == "uncover") {
            if (act == "reserve") reserved_.push_back(dice_.of(areas_));
            line("area = \"{}\"", reserved_.back());
            return pace(2, 20, 0.5, 100);
        }
        area();
        if (act == "wet") {
            line("side = \"{}\"\nwater_g_m2 = {:.2f}", dice_.of<std::string>({"front", "back", "both"}), dice_.number(40, 300, 10, 600));
            pace(10, 80, 0.5, 200);
        } else if (act == "charge") {
            mix();
            line("{} = {}\ndrop_uL = {:.2f}\ndrop_mm = {}\neach_s = {:.2f}", dice_.chance(0.7) ? "drops" : "stroke_mm = 5\nstrokes", 1 + dice_.below(12),
                 dice_.number(2, 30, 1, 60), mm(dice_.number(2, 10, 0.5, 20)), dice_.number(0.2, 2, 0, 10));
        } else if (act == "lift") {
            line("tool = \"{}\"", dice_.of<std::string>({"thirsty-brush", "tissue", "sponge", "scrub"}));
            pace(2, 20, 0.5, 100);
        } else if (act == "spatter") {
            mix();
            line("drops = {}\nseconds = {:.2f}", 1 + dice_.below(60), dice_.in(0, 20));
        } else if (act == "spray") {
            mix();
            line("water_g_m2 = {:.2f}\ndroplet_mm = {:.3f}\nseconds = {:.2f}", dice_.number(5, 100, 1, 200), dice_.number(0.15, 1, 0.05, 2), dice_.in(0, 20));
        } else if (act == "drybrush") {
            mix();
            line("film_um = {:.2f}", dice_.number(15, 80, 5, 150));
            if (dice_.chance(0.4)) line("share = {:.3f}", dice_.in(0.05, 1));
            pace(5, 20, 0.5, 100);
        } else { // body
            mix();
            line("paint_g_m2 = {:.2f}", dice_.number(20, 120, 5, 400));
            pace(1, 10, 0.5, 100);
        }
    }
};

/// A plan seen through `at`, which says where each point of the sheet goes; `size` what becomes of lengths along x and y.
template <class At, class Size> void move_places(plan::Plan& p, At&& at, Size&& size) {
    const auto points = [&](std::vector<plan::Point>& all) {
        for (plan::Point& q : all) q = at(q);
    };
    for (plan::Area& a : p.areas) {
        if (auto* r = std::get_if<plan::Rectangle>(&a.form)) {
            const plan::Point one = at({r->x_m, r->y_m}), other = at({r->x_m + r->width_m, r->y_m + r->height_m});
            r->x_m = std::min(one.x_m, other.x_m), r->y_m = std::min(one.y_m, other.y_m);
            size(r->width_m, r->height_m);
        } else if (auto* e = std::get_if<plan::Ellipse>(&a.form)) {
            const plan::Point centre = at({e->x_m, e->y_m});
            e->x_m = centre.x_m, e->y_m = centre.y_m;
            size(e->width_m, e->height_m);
        } else if (auto* polygon = std::get_if<plan::Polygon>(&a.form)) {
            points(polygon->corners);
        } else if (auto* l = std::get_if<plan::Line>(&a.form)) {
            points(l->points);
        }
    }
    for (plan::Step& s : p.steps)
        if (auto* wash = std::get_if<plan::Wash>(&s.act)) {
            for (plan::Stroke& stroke : wash->strokes) points(stroke);
            const plan::Point from = at({wash->from_x_m, wash->from_y_m});
            wash->from_x_m = from.x_m, wash->from_y_m = from.y_m;
        }
    size(p.width_m, p.height_m);
}

} // namespace

RandomPlan random_plan(std::uint64_t seed, const materials::Presets& presets) { return Writer(seed, presets).write(); }

plan::Plan mirrored(plan::Plan p) {
    const double width_m = p.width_m;
    move_places(p, [=](plan::Point q) { return plan::Point{width_m - q.x_m, q.y_m}; }, [](double&, double&) {});
    return p;
}

plan::Plan turned(plan::Plan p) {
    const double height_m = p.height_m;
    move_places(p, [=](plan::Point q) { return plan::Point{height_m - q.y_m, q.x_m}; }, [](double& x, double& y) { std::swap(x, y); });
    return p;
}

} // namespace tidemark::trust
