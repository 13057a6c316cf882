#include "trust/sound.h"

#include <fmt/format.h>

#include <cmath>
#include <cstring>
#include <type_traits>

namespace tidemark::trust {
namespace {

/// see(name, field) for all fields of the sheet that can't be negative; film_low_m is a rounding of either sign.
template <class See> void each_field(const sheet::SheetState& s, See&& see) {
    see("film", s.film_m), see("front", s.front_kg_m2), see("back", s.back_kg_m2), see("drawn", s.drawn_m);
    see("gum in the lower half", s.gum_lower_kg_m2), see("gum in the upper half", s.gum_upper_kg_m2), see("bound gum", s.gum_bound_kg_m2);
    for (const auto& p : s.pigments) {
        see(p.pigment.id + " afloat in the lower half", p.afloat_lower), see(p.pigment.id + " afloat in the upper half", p.afloat_upper);
        see(p.pigment.id + " loose", p.loose), see(p.pigment.id + " bound", p.bound), see(p.pigment.id + " inside", p.inside);
    }
    for (const auto& pass : s.passes)
        for (const auto& f : pass.bound) see("an earlier pass", f);
}

constexpr std::uint64_t basis = 0xcbf29ce484222325ull, prime = 0x100000001b3ull;

std::uint64_t with(std::uint64_t hash, const void* bytes, std::size_t n) {
    const auto* at = static_cast<const unsigned char*>(bytes);
    for (; n >= 8; n -= 8, at += 8) {
        std::uint64_t word = 0;
        std::memcpy(&word, at, 8);
        hash = (hash ^ word) * prime, hash ^= hash >> 29;
    }
    for (; n > 0; --n, ++at) hash = (hash ^ *at) * prime;
    return hash;
}

template <class T> std::uint64_t with_field(std::uint64_t hash, const sheet::Field<T>& f) {
    for (int j = 0; j < f.ny(); ++j) hash = with(hash, f.row(j), sizeof(T) * static_cast<std::size_t>(f.nx()));
    return hash;
}

} // namespace

std::string unsound(const sheet::SheetState& s) {
    std::string found;
    each_field(s, [&](const std::string& name, const auto& f) {
        for (int j = 0; j < f.ny() && found.empty(); ++j)
            for (int i = 0; i < f.nx(); ++i)
                if (!(f(i, j) >= 0) || !std::isfinite(f(i, j))) {
                    found = fmt::format("{} is {:.3g} at cell {}, {}", name, f(i, j), i, j);
                    break;
                }
    });
    if (found.empty() && !(std::isfinite(s.board_water_kg) && s.board_water_kg >= 0)) found = fmt::format("the board's water is {:.3g}", s.board_water_kg);
    for (int j = 0; j < s.geometry.ny && found.empty(); ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            if (const double h = static_cast<double>(s.film_m(i, j)) + s.film_low_m(i, j); !(h >= 0)) {
                found = fmt::format("film with its low part is {:.3g} m at cell {}, {}", h, i, j);
                break;
            }
    return found;
}

std::uint64_t fingerprint(const sheet::SheetState& s) {
    std::uint64_t hash = with(basis, &s.time_s, sizeof s.time_s);
    each_field(s, [&](const std::string&, const auto& f) { hash = with_field(hash, f); });
    return with_field(with_field(hash, s.film_low_m), s.surface);
}

} // namespace tidemark::trust
