#include "viewer/studio/reel.h"

#include "viewer/studio/packed_detail.h"
#include "viewer/studio/snapshot_detail.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <mutex>
#include <unordered_set>

namespace tidemark::viewer {

namespace {

using Bands = std::vector<std::shared_ptr<const Packed>>;

struct Kept {
    double time_s = 0;
    bool matters = false;
    std::array<Bands, parts_count> parts;
};

constexpr int tile = 32;
constexpr double ticks_a_s = 4; ///< of stage changes; 20 bits of them are three days
constexpr std::uint32_t most_ticks = (1u << 20) - 1;

/// Changes of stage in one tile, by time. A word: ticks, cell in the tile, stage.
using TileLog = std::vector<std::uint32_t>;
std::uint32_t ticks(double time_s) { return static_cast<std::uint32_t>(std::clamp(std::round(time_s * ticks_a_s), 0.0, double(most_ticks))); }
std::uint32_t word_of(double time_s, int cell, int stage) { return ticks(time_s) << 12 | static_cast<std::uint32_t>(cell) << 2 | static_cast<std::uint32_t>(stage); }

} // namespace

struct Reel::Inside {
    std::size_t most_bytes;
    mutable std::mutex mutex;
    // Under the mutex:
    int nx = 0, ny = 0;
    double cell_m = 0;
    std::size_t pigments = 0;
    std::vector<Kept> moments;
    std::vector<TileLog> logs;
    std::size_t bytes = 0;
    // Of the adding thread alone:
    Moment last;

    int tiles_x() const { return (nx + tile - 1) / tile; }
    std::size_t log_of(int i, int j) const { return static_cast<std::size_t>(j / tile) * tiles_x() + i / tile; }
    static int cell_of(int i, int j) { return j % tile * tile + i % tile; }

    Kept packed(const Moment& m, bool matters, std::size_t& added) const;
    void note_stages(const Moment&);
    void count_bytes();
    void thin_out();
};

Reel::Reel(std::size_t most_bytes) : in_(std::make_unique<Inside>()) { in_->most_bytes = most_bytes; }
Reel::~Reel() = default;

/// What is as it was is not packed again.
Kept Reel::Inside::packed(const Moment& m, bool matters, std::size_t& added) const {
    Kept kept{m.time_s, matters, {}};
    const bool first = moments.empty();
    for (int part = 0; part < parts_count; ++part)
        for (int band = 0; band < bands_of(m); ++band) {
            const auto raw = band_bytes(m, part, band);
            auto& to = kept.parts[static_cast<std::size_t>(part)];
            if (!first && raw == band_bytes(last, part, band)) {
                to.push_back(moments.back().parts[static_cast<std::size_t>(part)][static_cast<std::size_t>(band)]);
                continue;
            }
            to.push_back(std::make_shared<const Packed>(raw, part < 2 ? 3 : 1));
            added += to.back()->bytes();
        }
    return kept;
}

/// Against the moment before; paper that was never wet is dry from the start.
void Reel::Inside::note_stages(const Moment& m) {
    const bool first = last.stage.empty();
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            const int now = m.stage[m.at(i, j)], was = first ? 3 : last.stage[m.at(i, j)];
            if (now != was) logs[log_of(i, j)].push_back(word_of(m.time_s, cell_of(i, j), now));
        }
}

void Reel::add(const sheet::SheetState& sheet, bool matters) {
    Inside& in = *in_;
    Moment m = snapshot(sheet);
    if (!in.last.stage.empty() && m.time_s <= in.last.time_s) return;
    std::size_t added = 0;
    Kept kept = in.packed(m, matters, added); // only this thread changes the moments
    const std::lock_guard lock(in.mutex);
    if (in.moments.empty()) {
        in.nx = m.nx, in.ny = m.ny, in.cell_m = m.cell_m, in.pigments = m.load_codes.size();
        in.logs.resize(static_cast<std::size_t>(in.tiles_x()) * ((m.ny + tile - 1) / tile));
    }
    in.note_stages(m);
    in.moments.push_back(std::move(kept));
    in.bytes += added;
    in.last = std::move(m);
    if (in.bytes > in.most_bytes) in.thin_out();
}

void Reel::Inside::count_bytes() {
    std::unordered_set<const Packed*> seen;
    bytes = 0;
    for (const Kept& k : moments)
        for (const Bands& bands : k.parts)
            for (const auto& band : bands)
                if (seen.insert(band.get()).second) bytes += band->bytes();
}

/// Every second one goes, until a quarter of the room is free; first those between the acts' beginnings and ends. The first
/// and the last stay.
void Reel::Inside::thin_out() {
    for (const bool even_those_that_matter : {false, false, true, true, true}) {
        if (bytes <= most_bytes / 4 * 3) return;
        std::vector<Kept> left;
        bool go = false;
        for (std::size_t k = 0; k < moments.size(); ++k) {
            const bool may_go = k > 0 && k + 1 < moments.size() && (even_those_that_matter || !moments[k].matters);
            if (may_go) go = !go;
            if (!may_go || !go) left.push_back(std::move(moments[k]));
        }
        moments = std::move(left);
        count_bytes();
    }
}

void Reel::begin_as(const Reel& other, double until_s) {
    Inside& in = *in_;
    {
        const std::scoped_lock lock(in.mutex, other.in_->mutex); // someone may look at this one already
        const Inside& from = *other.in_;
        in.nx = from.nx, in.ny = from.ny, in.cell_m = from.cell_m, in.pigments = from.pigments;
        for (const Kept& k : from.moments)
            if (k.time_s <= until_s) in.moments.push_back(k);
        const double last_s = in.moments.empty() ? -1 : in.moments.back().time_s;
        in.logs.assign(from.logs.size(), {});
        for (std::size_t t = 0; t < from.logs.size(); ++t)
            for (const std::uint32_t word : from.logs[t])
                if (last_s >= 0 && word >> 12 <= ticks(last_s)) in.logs[t].push_back(word);
        in.count_bytes();
    }
    if (in.moments.empty()) return;
    in.last = *at(in.moments.back().time_s, all_parts);
}

std::vector<double> Reel::times_s() const {
    const std::lock_guard lock(in_->mutex);
    std::vector<double> times;
    for (const Kept& k : in_->moments) times.push_back(k.time_s);
    return times;
}

std::size_t Reel::count() const {
    const std::lock_guard lock(in_->mutex);
    return in_->moments.size();
}

double Reel::last_s() const {
    const std::lock_guard lock(in_->mutex);
    return in_->moments.empty() ? -1 : in_->moments.back().time_s;
}

std::size_t Reel::bytes() const {
    const std::lock_guard lock(in_->mutex);
    return in_->bytes;
}

std::optional<Moment> Reel::at(double time_s, unsigned parts) const {
    Moment m;
    Kept kept;
    std::size_t pigments = 0;
    {
        const std::lock_guard lock(in_->mutex);
        const auto& all = in_->moments;
        if (all.empty()) return std::nullopt;
        auto after = std::upper_bound(all.begin(), all.end(), time_s + 1e-6, [](double t, const Kept& k) { return t < k.time_s; });
        kept = after == all.begin() ? *after : *std::prev(after);
        m.nx = in_->nx, m.ny = in_->ny, m.cell_m = in_->cell_m, m.time_s = kept.time_s;
        pigments = in_->pigments;
    }
    make_room(m, parts, pigments);
    for (int part = 0; part < parts_count; ++part)
        if (parts & 1u << part)
            for (std::size_t band = 0; band < kept.parts[static_cast<std::size_t>(part)].size(); ++band)
                put_band(m, part, static_cast<int>(band), kept.parts[static_cast<std::size_t>(part)][band]->raw());
    return m;
}

std::optional<StageChange> Reel::next_stage(int i, int j, double time_s) const {
    const std::lock_guard lock(in_->mutex);
    if (i < 0 || j < 0 || i >= in_->nx || j >= in_->ny) return std::nullopt;
    const std::uint32_t now = ticks(time_s), cell = static_cast<std::uint32_t>(Inside::cell_of(i, j));
    for (const std::uint32_t word : in_->logs[in_->log_of(i, j)])
        if ((word >> 2 & 1023u) == cell && word >> 12 > now) return StageChange{(word >> 12) / ticks_a_s, static_cast<int>(word & 3u)};
    return std::nullopt;
}

} // namespace tidemark::viewer
