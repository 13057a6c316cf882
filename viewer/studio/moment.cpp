#include "viewer/studio/moment.h"

#include <algorithm>
#include <cmath>

namespace tidemark::viewer {

namespace {

/// Steps of equal ratio from `least` (code 1) up; what is below is 0.
struct Ratio {
    float least, log_step;
    std::uint8_t code(float v) const {
        if (!(v >= least)) return 0;
        return static_cast<std::uint8_t>(std::min(255.0f, 1 + std::round(std::log(v / least) / log_step)));
    }
    float value(std::uint8_t c) const { return c == 0 ? 0 : least * std::exp(static_cast<float>(c - 1) * log_step); }
};

const Ratio film{0.5e-6f, std::log(10e-3f / 0.5e-6f) / 254}, load{1e-6f, std::log(1e6f) / 254};

} // namespace

std::uint8_t lstar_code(float lstar) { return static_cast<std::uint8_t>(std::lround(std::clamp(lstar, 0.0f, 100.0f) * 2.55f)); }
float lstar_of(std::uint8_t code) { return static_cast<float>(code) / 2.55f; }
std::uint8_t film_code(float film_m) { return film.code(film_m); }
float film_um(std::uint8_t code) { return film.value(code) * 1e6f; }
std::uint8_t load_code(float kg_m2) { return load.code(kg_m2); }
float load_g_m2(std::uint8_t code) { return load.value(code) * 1e3f; }

} // namespace tidemark::viewer
