#include "plan/digest.h"

#include "plan/variants.h"

namespace tidemark::plan {

// Structs with members that grid/members.h can't count, or that don't count here. A new member has to be named.

template <class A> void archive_of(A& a, const Wash& wash) {
    const auto& [area, mix, film_m, pace, travel, from_x, from_y, order, strokes, brush, refill_s, bead] = wash;
    a(area, mix, film_m, pace, travel, from_x, from_y, order, strokes, brush, refill_s, bead);
}

template <class A> void archive_of(A& a, const Soften& soften) {
    const auto& [area, along, width_m, water_kg_m2, speed_m_s] = soften;
    a(area, along, width_m, water_kg_m2, speed_m_s);
}

template <class A> void archive_of(A& a, const Dry& dry) {
    const auto& [area, until, longest_s, share, warm_air, air_temperature_K, air_m_s, blows] = dry;
    a(area, until, longest_s, share, warm_air, air_temperature_K, air_m_s, blows);
}

template <class A> void archive_of(A& a, const Step& step) {
    const auto& [name, line, start, act] = step;
    a(name, start, act);
}

template <class A> void archive_of(A& a, const Area& area) {
    const auto& [name, file, mask, form, soft_m] = area;
    a(name, mask, form, soft_m);
}

template <class A> void archive_of(A& a, const Plan& plan) {
    const auto& [file, width_m, height_m, paper, room, board, tilt_rad, tilt_direction_rad, seed, pigments, mixes, areas,
                 steps, wants, reference] = plan;
    a(width_m, height_m, paper, room, board, tilt_rad, tilt_direction_rad, seed, pigments, mixes, areas, steps);
}

namespace {

/// All bytes of what is compared: a digest could be the same by chance.
class Bytes : public grid::ArchivePuts<Bytes> {
  public:
    std::string all;
    void put(const void* x, std::size_t n) { all.append(static_cast<const char*>(x), n); }
    template <class T> void words(const T* first, std::size_t rows, std::size_t columns, std::ptrdiff_t stride) {
        for (std::size_t j = 0; j < rows; ++j)
            put(first + static_cast<std::ptrdiff_t>(j) * stride, columns * sizeof(T));
    }
};

template <class... T> std::string bytes_of(const T&... x) {
    Bytes bytes;
    bytes(x...);
    return std::move(bytes.all);
}

/// The mix that an act lays; clear water by number alone.
const Mix* mix_of(const Values& v, const Act& act) {
    return std::visit([&](const auto& a) -> const Mix* {
        if constexpr (requires { a.mix; })
            return a.mix >= 0 ? &v.mixes[a.mix] : nullptr;
        else
            return nullptr;
    }, act);
}

std::string act_bytes(const Values& v, const Step& step) {
    const Mix* mix = mix_of(v, step.act);
    return mix ? bytes_of(step.name, step.act, *mix) : bytes_of(step.name, step.act);
}

} // namespace

bool same_sheet(const Values& a, const Values& b) { return bytes_of(a.paper, a.room) == bytes_of(b.paper, b.room); }

std::vector<Difference> differences(const Values& a, const Values& b) {
    std::vector<Difference> all;
    for (std::size_t k = 0; k < a.steps.size(); ++k) {
        const Difference d{static_cast<int>(k), bytes_of(a.steps[k].start) != bytes_of(b.steps[k].start),
                           act_bytes(a, a.steps[k]) != act_bytes(b, b.steps[k])};
        if (d.start || d.act) all.push_back(d);
    }
    return all;
}

bool same_areas(const Plan& a, const Plan& b) {
    const auto areas = [](const Plan& p) {
        Bytes all;
        all(p.width_m, p.height_m);
        for (const Area& area : p.areas) {
            const std::string file = area.file.string();
            all(area.name, file, area.form, area.soft_m);
        }
        return std::move(all.all);
    };
    return areas(a) == areas(b);
}

bool asks_for_the_same_edges(const Plan& a, const Plan& b) {
    const auto asked = [](const Plan& p) {
        Bytes all;
        for (const Step& s : p.steps) {
            const std::uint64_t verb = s.act.index();
            const std::int32_t area = s.area();
            all(s.name, verb, area);
        }
        for (const Want& w : p.wants) all(w.first, w.second);
        return std::move(all.all);
    };
    return same_areas(a, b) && asked(a) == asked(b);
}

grid::ArchiveDigest digest(const Plan& plan) {
    grid::ArchiveDigest all;
    all(plan);
    return all;
}

} // namespace tidemark::plan
