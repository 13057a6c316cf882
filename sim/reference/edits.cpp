#include "reference/edits.h"

#include "grid/problem.h"
#include "reference/masses_detail.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <set>

namespace tidemark::reference {

namespace {

using grid::BadInput;

/// The masses while a list is done: pixels carry labels, and the numbers of the painter's picture answer to them.
class Bench {
  public:
    Bench(const Masses& m, int groups, double pixels_per_mm)
        : masses_(m), groups_(groups), pixels_per_mm_(pixels_per_mm), label_(m.of) {
        for (std::size_t k = 0; k < m.list.size(); ++k) {
            group_.push_back(m.list[k].group), pixels_.push_back(m.list[k].pixels), name_.emplace_back();
            number_[static_cast<int>(k) + 1] = static_cast<int>(k);
        }
        next_number_ = static_cast<int>(m.list.size()) + 1;
    }

    void operator()(const MergeMasses& e) {
        const int a = found(e.a), b = found(e.b);
        if (a == b)
            throw BadInput(shown_, "that is one mass already", "two masses");
        if (!touch(a, b))
            throw BadInput(shown_, "these masses don't touch", "two masses with a border between them");
        if (!name_[a].empty() && !name_[b].empty())
            throw BadInput(shown_, fmt::format("both have a name, \"{}\" and \"{}\"", name_[a], name_[b]),
                           "at most one name; name the two anew once they are one");
        if (pixels_[b] > pixels_[a])
            group_[a] = group_[b];
        into(a, b);
    }

    void operator()(const PushMass& e) {
        const int k = found(e.mass), to = group_[k] + e.by;
        if (e.by == 0 || to < 0 || to >= groups_)
            throw BadInput(shown_, e.by == 0 ? "0 groups is no push" : "there is no such group",
                           fmt::format("{} to {:+}, but not 0", -group_[k], groups_ - 1 - group_[k]));
        group_[k] = to;
        join_alike(k);
    }

    void operator()(const NameMass& e) {
        const int k = found(e.mass);
        const bool word = !e.name.empty() && e.name.size() <= 40 &&
                          std::all_of(e.name.begin(), e.name.end(), [](unsigned char c) {
                              return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
                          });
        if (!word || all_digits(e.name))
            throw BadInput(shown_, fmt::format("\"{}\" is no name", e.name),
                           "up to 40 letters, digits, - and _, not digits alone");
        if (std::find(name_.begin(), name_.end(), e.name) != name_.end())
            throw BadInput(shown_, fmt::format("\"{}\" is the name of another mass", e.name), "a name of its own");
        name_[k] = e.name;
    }

    void operator()(const SplitMass& e) {
        const int k = found(e.mass);
        const double dx = e.x2_mm - e.x1_mm, dy = e.y2_mm - e.y1_mm;
        if (!(std::hypot(dx, dy) > 0))
            throw BadInput(shown_, "the line has no direction", "two different points");
        const double width_mm = masses_.width / pixels_per_mm_, height_mm = masses_.height / pixels_per_mm_, slack_mm = 0.5 / pixels_per_mm_;
        for (const auto& [x, y] : {std::pair(e.x1_mm, e.y1_mm), std::pair(e.x2_mm, e.y2_mm)})
            if (!(x >= 0 && y >= 0 && x <= width_mm + slack_mm && y <= height_mm + slack_mm))
                throw BadInput(shown_, fmt::format("{:g},{:g} lies beyond the sheet", x, y), fmt::format("places up to {:.0f},{:.0f} mm", width_mm, height_mm));
        const int w = masses_.width;
        std::vector<std::size_t> beyond;
        for (std::size_t p = 0; p < label_.size(); ++p) {
            const double x = (static_cast<double>(p % w) + 0.5) / pixels_per_mm_, y = (static_cast<double>(p / w) + 0.5) / pixels_per_mm_;
            if (label_[p] == k && dx * (y - e.y1_mm) - dy * (x - e.x1_mm) > 0)
                beyond.push_back(p);
        }
        const auto n = static_cast<std::int64_t>(beyond.size());
        if (n == 0 || n == pixels_[k])
            throw BadInput(shown_, "the line doesn't cross that mass", "a line through it");
        const int fresh = add(group_[k]);
        for (const std::size_t p : beyond)
            label_[p] = fresh;
        pixels_[fresh] = n, pixels_[k] -= n;
        if (n > pixels_[k]) // the larger part keeps the number and the name
            swap(k, fresh);
        for (const auto& [a, b] : std::vector<std::pair<int, int>>(apart_.begin(), apart_.end()))
            if (a == k || b == k) // other lines go on keeping both sides apart
                keep_apart(fresh, a == k ? b : a);
        keep_apart(k, fresh);
        part(k), part(fresh);
    }

    void run(const Edit& e) {
        shown_ = e.shown_as;
        std::visit(*this, e.what);
    }

    EditedMasses finished(const ValueMap& map) const {
        EditedMasses done;
        // A split may leave several parts of one.
        const std::vector<int> parts = hanging_together(
            masses_.width, masses_.height, [&](std::size_t p, std::size_t q) { return label_[p] == label_[q]; });
        const std::vector<int> group_of = by_label(parts, [&](std::size_t p) { return group_[label_[p]]; });
        done.masses = number_masses(masses_.width, masses_.height, parts, group_of, map);
        done.names.resize(done.masses.list.size());
        for (std::size_t p = 0; p < label_.size(); ++p)
            if (!name_[label_[p]].empty())
                done.names[done.masses.of[p]] = name_[label_[p]];
        return done;
    }

  private:
    static bool all_digits(const std::string& s) {
        return !s.empty() && std::all_of(s.begin(), s.end(), [](unsigned char c) { return c >= '0' && c <= '9'; });
    }

    int root(int k) const {
        for (auto it = gone_.find(k); it != gone_.end(); it = gone_.find(k))
            k = it->second;
        return k;
    }

    int found(const std::string& text) const {
        for (std::size_t k = 0; k < name_.size(); ++k)
            if (!name_[k].empty() && name_[k] == text)
                return static_cast<int>(k);
        int number = 0;
        const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
        const auto known = number_.find(number);
        if (error == std::errc() && end == text.data() + text.size() && known != number_.end())
            return root(known->second);
        std::string allowed = fmt::format("1 to {}", next_number_ - 1);
        for (const std::string& name : name_)
            if (!name.empty())
                allowed += ", " + name;
        throw BadInput(shown_, fmt::format("there is no mass \"{}\"", text), allowed);
    }

    bool touch(int a, int b) const {
        const int w = masses_.width;
        const auto between = [&](std::size_t p, std::size_t q) {
            return (label_[p] == a && label_[q] == b) || (label_[p] == b && label_[q] == a);
        };
        for (std::size_t p = 0; p < label_.size(); ++p)
            if ((p % w > 0 && between(p, p - 1)) || (p >= static_cast<std::size_t>(w) && between(p, p - w)))
                return true;
        return false;
    }

    void keep_apart(int a, int b) {
        if (a != b)
            apart_.insert({std::min(a, b), std::max(a, b)});
    }

    /// b becomes part of a, and what a now touches in its own group with it.
    void into(int a, int b) {
        for (int& l : label_)
            if (l == b)
                l = a;
        pixels_[a] += pixels_[b], pixels_[b] = 0;
        if (name_[a].empty())
            std::swap(name_[a], name_[b]);
        gone_[b] = a;
        for (const auto& [x, y] : std::vector<std::pair<int, int>>(apart_.begin(), apart_.end()))
            if (x == b || y == b)
                keep_apart(a, x == b ? y : x);
        join_alike(a);
    }

    /// Masses of one group that touch are one, unless a line keeps them apart or each has a name.
    void join_alike(int k) {
        const int w = masses_.width;
        std::set<int> beside;
        for (std::size_t p = 0; p < label_.size(); ++p)
            for (const std::size_t back : {std::size_t{1}, static_cast<std::size_t>(w)}) {
                if (back == 1 ? p % w == 0 : p < back)
                    continue;
                const int a = label_[p], b = label_[p - back];
                if ((a == k) != (b == k))
                    beside.insert(a == k ? b : a);
            }
        for (const int n : beside)
            if (group_[n] == group_[k] && pixels_[n] > 0 && !apart_.contains({std::min(k, n), std::max(k, n)}) &&
                (name_[n].empty() || name_[k].empty()))
                return into(k, n);
    }

    /// What no longer hangs together becomes masses of their own; the largest part keeps number and name.
    void part(int k) {
        const std::vector<int> parts = hanging_together(masses_.width, masses_.height, [&](std::size_t p, std::size_t q) {
            return label_[p] == k && label_[q] == k;
        });
        std::map<int, std::int64_t> size; // in the order in which they are met from the top left
        for (std::size_t p = 0; p < label_.size(); ++p)
            if (label_[p] == k)
                ++size[parts[p]];
        if (size.size() < 2)
            return;
        const int largest = std::max_element(size.begin(), size.end(), [](const auto& a, const auto& b) { return a.second < b.second; })->first;
        std::map<int, int> fresh;
        for (const auto& [part, pixels] : size)
            if (part != largest)
                fresh[part] = add(group_[k]), pixels_[fresh[part]] = pixels, pixels_[k] -= pixels;
        for (std::size_t p = 0; p < label_.size(); ++p)
            if (label_[p] == k && parts[p] != largest)
                label_[p] = fresh[parts[p]];
        for (const auto& [a, b] : std::vector<std::pair<int, int>>(apart_.begin(), apart_.end()))
            for (const auto& [part, made] : fresh)
                if (a == k || b == k)
                    keep_apart(made, a == k ? b : a);
    }

    int add(int group) {
        const int k = static_cast<int>(group_.size());
        group_.push_back(group), pixels_.push_back(0), name_.emplace_back();
        number_[next_number_++] = k;
        return k;
    }

    void swap(int k, int other) {
        for (int& l : label_)
            l = l == k ? other : l == other ? k : l;
        std::swap(pixels_[k], pixels_[other]);
    }

    const Masses& masses_;
    int groups_;
    double pixels_per_mm_;
    std::vector<int> label_, group_;
    std::vector<std::int64_t> pixels_;
    std::vector<std::string> name_;
    std::map<int, int> number_, gone_; ///< painter's number to label; a label that was joined to another
    std::set<std::pair<int, int>> apart_;
    int next_number_ = 1;
    std::string shown_;
};

} // namespace

EditedMasses edited(const Masses& masses, const ValueMap& map, int groups, double pixels_per_mm, std::span<const Edit> edits) {
    Bench bench(masses, groups, pixels_per_mm);
    for (const Edit& e : edits)
        bench.run(e);
    return bench.finished(map);
}

} // namespace tidemark::reference
