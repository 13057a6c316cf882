/// The sheet at one moment, as far as it is kept to be looked at.
///
/// Cells are those of the run, or one of k × k of them (near their middle) when a run has more than `most_cells`; row by row
/// from the sheet's top left. Rounded: L* to 0.4, depths of film to 4 %, water in the paper to 0.4 % of what it holds, pigment to 6 %.
#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace tidemark::viewer {

constexpr std::int64_t most_cells = 120'000;

/// What is asked of a moment; each takes its own time to unpack.
enum Parts : unsigned {
    part_now = 1,      ///< now_rgb
    part_dried = 2,    ///< dried_rgb and lstar
    part_water = 4,    ///< film, moisture and stage
    part_pigments = 8, ///< loads
    all_parts = 15
};

struct Moment {
    double time_s = 0;
    int nx = 0, ny = 0;
    double cell_m = 0;
    unsigned parts = 0;                   ///< those that are filled
    std::vector<std::uint8_t> now_rgb;    ///< as it looks now (wet)
    std::vector<std::uint8_t> dried_rgb;  ///< as it will dry
    std::vector<std::uint8_t> lstar_code; ///< of the dried look
    std::vector<std::uint8_t> film_code;
    std::vector<std::uint8_t> moisture_code; ///< of both halves, share of what they can hold: / 255
    std::vector<std::uint8_t> stage;      ///< sheet::CellStage
    std::vector<std::vector<std::uint8_t>> load_codes; ///< by pigment of the plan; of 2 × 2 cells together

    std::size_t at(int i, int j) const { return static_cast<std::size_t>(j) * nx + i; }
    int load_nx() const { return (nx + 1) / 2; }
    int load_ny() const { return (ny + 1) / 2; }
};

// Codes of 0 ... 255; film from 0.5 µm to 10 mm, loads from 1 mg/m² to 1 kg/m²; below is 0, none.
std::uint8_t lstar_code(float lstar);
float lstar_of(std::uint8_t code);
std::uint8_t film_code(float film_m);
float film_um(std::uint8_t code);
std::uint8_t load_code(float kg_m2);
float load_g_m2(std::uint8_t code);

} // namespace tidemark::viewer
