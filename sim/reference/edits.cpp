#include "reference/edits.h"

#include "grid/problem.h"
#include "reference/masses_detail.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <numeric>
#include <set>
#include <utility>

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
            number(static_cast<int>(k), m.list[k].number);
        }
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
        take_in(a, b);
        relabel(a, {b});
        join_alike(a);
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
        keep_apart_like(fresh, k); // other lines go on
        keep_apart(k, fresh);
        part(k), part(fresh);
    }

    void run(const Edit& e) {
        shown_ = e.shown_as, done_ = {e.shown_as, {}, 0, {}};
        std::visit(*this, e.what);
        std::sort(done_.gone.begin(), done_.gone.end());
        if (!done_.made.empty() || !done_.gone.empty())
            renumbered_.push_back(done_);
    }

    EditedMasses finished(const ValueMap& map) const {
        EditedMasses done;
        done.masses = number_masses(masses_.width, masses_.height, label_, group_, map, shown_number_);
        done.names.resize(done.masses.list.size());
        for (std::size_t p = 0; p < label_.size(); ++p)
            if (!name_[label_[p]].empty())
                done.names[done.masses.of[p]] = name_[label_[p]];
        done.renumbered = renumbered_;
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
        const auto known = label_of_.find(number);
        if (error == std::errc() && end == text.data() + text.size() && known != label_of_.end())
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
            apart_[a].insert(b), apart_[b].insert(a);
    }

    /// What lines keep apart from `other` they keep apart from k.
    void keep_apart_like(int k, int other) {
        if (const auto known = apart_.find(other); known != apart_.end())
            for (const int n : std::set<int>(known->second)) // keep_apart() changes it
                keep_apart(k, n);
    }

    bool kept_apart(int a, int b) const {
        const auto known = apart_.find(a);
        return known != apart_.end() && known->second.contains(b);
    }

    /// k takes on what lines say of b, b's name, its pixels; their labels are left to the caller.
    void take_in(int k, int b) {
        keep_apart_like(k, b);
        if (name_[k].empty())
            std::swap(name_[k], name_[b]);
        pixels_[k] += pixels_[b], pixels_[b] = 0;
        gone_[b] = k;
        done_.gone.push_back(std::max(shown_number_[k], shown_number_[b]));
        done_.stays = shown_number_[k] = std::min(shown_number_[k], shown_number_[b]);
    }

    void relabel(int k, const std::vector<int>& taken) {
        std::vector<int> to(group_.size());
        std::iota(to.begin(), to.end(), 0);
        for (const int b : taken)
            to[b] = k;
        for (int& l : label_)
            l = to[l];
    }

    /// Which masses of one group touch: pairs of labels both ways, sorted, each once.
    std::vector<std::pair<int, int>> touching_in(int group) const {
        std::vector<std::pair<int, int>> pairs;
        const auto look = [&](int a, int b) {
            if (a != b && group_[a] == group && group_[b] == group)
                pairs.emplace_back(a, b), pairs.emplace_back(b, a);
        };
        const auto w = static_cast<std::size_t>(masses_.width);
        for (std::size_t p = 0; p < label_.size(); ++p) {
            if (p % w > 0) look(label_[p], label_[p - 1]);
            if (p >= w) look(label_[p], label_[p - w]);
        }
        std::sort(pairs.begin(), pairs.end());
        pairs.erase(std::unique(pairs.begin(), pairs.end()), pairs.end());
        return pairs;
    }

    /// Masses of one group that touch are one, unless a line keeps them apart or each has a name. The search spreads from
    /// k over what touches what; of those in reach the lowest label comes first, since it may bring a name or a line.
    void join_alike(int k) {
        const std::vector<std::pair<int, int>> touching = touching_in(group_[k]);
        std::set<int> in_reach;
        std::vector<std::uint8_t> met(group_.size(), 0);
        const auto reach_from = [&](int a) {
            for (auto it = std::lower_bound(touching.begin(), touching.end(), std::pair(a, 0)); it != touching.end() && it->first == a; ++it)
                if (!std::exchange(met[it->second], std::uint8_t{1}))
                    in_reach.insert(it->second);
        };
        met[k] = 1;
        reach_from(k);
        std::vector<int> taken;
        while (!in_reach.empty()) {
            const int n = *in_reach.begin();
            in_reach.erase(in_reach.begin());
            if (kept_apart(k, n) || (!name_[n].empty() && !name_[k].empty()))
                continue; // for good: lines and names only grow in number
            take_in(k, n);
            taken.push_back(n);
            reach_from(n);
        }
        if (!taken.empty())
            relabel(k, taken);
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
        for (const auto& [part, made] : fresh)
            keep_apart_like(made, k);
    }

    int add(int group) {
        const int k = static_cast<int>(group_.size());
        group_.push_back(group), pixels_.push_back(0), name_.emplace_back();
        done_.made.push_back(next_number_);
        number(k, next_number_);
        return k;
    }

    void number(int k, int n) {
        label_of_[n] = k;
        shown_number_.push_back(n);
        next_number_ = std::max(next_number_, n + 1);
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
    std::vector<int> shown_number_;      ///< by label: the lowest that answers
    std::map<int, int> label_of_, gone_; ///< by the painter's number; where a label that was joined went
    std::map<int, std::set<int>> apart_; ///< by lines, both ways
    int next_number_ = 1;
    std::string shown_;
    Renumbered done_; ///< by the edit that is done
    std::vector<Renumbered> renumbered_;
};

} // namespace

EditedMasses edited(const Masses& masses, const ValueMap& map, int groups, double pixels_per_mm, std::span<const Edit> edits) {
    Bench bench(masses, groups, pixels_per_mm);
    for (const Edit& e : edits)
        bench.run(e);
    return bench.finished(map);
}

} // namespace tidemark::reference
