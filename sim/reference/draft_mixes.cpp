#include "reference/draft_mixes.h"

#include <algorithm>
#include <cmath>

namespace tidemark::reference {

namespace {

double load_at(int step) { return first_load_g_m2 * std::pow(2.0, 0.5 * step); }

} // namespace

const std::array<DraftMix, 4>& draft_mixes() {
    static const std::array<DraftMix, 4> all{{
        {"neutral",
         "a grey, leaning to violet",
         {{{"PB29", 0.5}, {"PBr7-burnt-sienna", 0.5}}},
         {93.2f, 92.6f, 91.8f, 90.7f, 89.1f, 87.0f, 84.2f, 80.5f, 75.7f, 69.7f, 62.5f, 54.2f, 45.4f, 37.2f, 31.1f,
          28.0f, 27.0f, 26.9f}},
        {"cool",
         "a grey blue",
         {{{"PB29", 0.75}, {"PBr7-burnt-sienna", 0.25}}},
         {93.0f, 92.4f, 91.5f, 90.3f, 88.6f, 86.3f, 83.3f, 79.4f, 74.3f, 68.1f, 60.7f, 52.4f, 43.7f, 35.9f, 30.2f,
          27.3f, 26.3f, 26.1f}},
        {"warm",
         "a warm brown",
         {{{"PB29", 0.2}, {"PBr7-burnt-sienna", 0.8}}},
         {93.4f, 92.9f, 92.1f, 91.2f, 89.8f, 87.9f, 85.5f, 82.2f, 78.0f, 72.6f, 66.2f, 58.8f, 50.7f, 42.8f, 36.1f,
          31.7f, 29.6f, 29.0f}},
        {"green",
         "a quiet leaf green",
         {{{"PB29", 0.6}, {"PY150", 0.4}}},
         {93.3f, 92.7f, 92.0f, 90.9f, 89.5f, 87.5f, 84.8f, 81.3f, 76.8f, 71.1f, 64.2f, 56.2f, 47.6f, 39.2f, 32.6f,
          28.8f, 27.5f, 27.3f}},
    }};
    return all;
}

const DraftMix& mix_for(double a, double b) {
    const auto& mixes = draft_mixes();
    if (std::hypot(a, b) < 6)
        return mixes[0];
    double hue = std::atan2(b, a) * 180 / 3.14159265358979324;
    if (hue < 0)
        hue += 360;
    if (hue >= 105 && hue < 200)
        return mixes[3];
    return hue >= 200 && hue < 340 ? mixes[1] : mixes[2];
}

double lstar_at(const DraftMix& mix, double load_g_m2) {
    if (load_g_m2 <= first_load_g_m2)
        return paper_lstar + (mix.lstar[0] - paper_lstar) * std::max(load_g_m2, 0.0) / first_load_g_m2;
    const double place = std::min(2 * std::log2(load_g_m2 / first_load_g_m2), strength_steps - 1.0);
    const int step = std::min(static_cast<int>(place), strength_steps - 2);
    return mix.lstar[step] + (mix.lstar[step + 1] - mix.lstar[step]) * (place - step);
}

double load_for(const DraftMix& mix, double lstar) {
    if (lstar >= paper_lstar)
        return 0;
    if (lstar >= mix.lstar[0])
        return first_load_g_m2 * (paper_lstar - lstar) / (paper_lstar - mix.lstar[0]);
    for (int step = 0; step + 1 < strength_steps; ++step) {
        const double light = mix.lstar[step], dark = mix.lstar[step + 1];
        if (lstar < dark)
            continue;
        const double load = load_at(step) * std::pow(2.0, 0.5 * (light - lstar) / (light - dark));
        return std::min(load, strongest_load_g_m2);
    }
    return strongest_load_g_m2;
}

} // namespace tidemark::reference
