/// What can be pressed in the frame just drawn, by name: for the keyboard's ring, for scripts and for tests.
#pragma once
#include <optional>
#include <string>
#include <vector>

namespace tidemark::viewer {

struct Rect { ///< pixels; right and bottom excluded
    float x0 = 0, y0 = 0, x1 = 0, y1 = 0;
    float width() const { return x1 - x0; }
    float height() const { return y1 - y0; }
    float middle_x() const { return (x0 + x1) / 2; }
    float middle_y() const { return (y0 + y1) / 2; }
    bool holds(float x, float y) const { return x >= x0 && x < x1 && y >= y0 && y < y1; }
};

class Controls {
  public:
    struct One {
        std::string name;
        Rect where;    ///< what can be seen of it
        bool in_ring;  ///< the Tab key visits it
    };
    void begin() { all_.clear(); }
    void note(std::string name, Rect where, bool in_ring) { all_.push_back({std::move(name), where, in_ring}); }
    void note_hidden(std::string name) { all_.push_back({std::move(name), {}, true}); } ///< scrolled out of sight
    const std::vector<One>& all() const { return all_; }
    /// By its whole name, else the only one whose name begins so. Nothing: none, or several.
    std::optional<One> find(const std::string& name) const;
    /// The name after `from` in the ring (before it: `back`); the first when `from` is not in it; empty: no ring.
    std::string next(const std::string& from, bool back) const;

  private:
    std::vector<One> all_;
};

} // namespace tidemark::viewer
