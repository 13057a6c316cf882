// From a large photograph to its masses, as squint finds them: seconds for decoding it whole, for decoding what the masses
// need, for value map and squinting, for the connected shape and its order; each the best of some runs.
//
//   photograph PICTURE.jpg [threads, all]
//   photograph made [threads, all]        a picture made here: 4000 × 3000, clouds of five sizes, hard shapes, grain
#include <omp.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>

#include "grid/calm_threads.h"
#include "reference/order.h"
#include "reference/picture_masses.h"
#include "timing.h"

TIDEMARK_BRISK_THREADS

using namespace tidemark;

namespace {

/// Something of what a camera gives: large and small tones that run into each other, edges, noise in every pixel.
grid::Picture made_picture() {
    grid::Picture p{4000, 3000, {}};
    p.rgb.resize(static_cast<std::size_t>(p.width) * p.height * 3);
    std::uint32_t noise = 12345;
    for (int y = 0; y < p.height; ++y)
        for (int x = 0; x < p.width; ++x) {
            double tone = 0.75 - 0.35 * y / p.height;
            for (int k = 1; k <= 5; ++k)
                tone += 0.16 / k * std::sin(0.0013 * k * k * x + 2.1 * k) * std::cos(0.0017 * k * k * y + 1.3 * k);
            if ((x / 700 + y / 500) % 3 == 0 && (x % 700) < 420 && (y % 500) < 330) tone *= 0.45; // sheds, trunks
            for (int c = 0; c < 3; ++c) {
                noise = noise * 1664525u + 1013904223u;
                const double value = 255 * tone * (1 - 0.08 * c) + static_cast<double>(noise >> 24) / 16 - 8;
                p.at(x, y)[c] = static_cast<std::uint8_t>(std::clamp(value, 0.0, 255.0));
            }
        }
    return p;
}

/// A file that goes with the program.
struct MadeFile {
    std::filesystem::path path = std::filesystem::temp_directory_path() / ("tidemark-bench-" + std::to_string(getpid()) + ".jpg");
    MadeFile() {
        const auto bytes = grid::jpeg_bytes(made_picture(), 92);
        std::ofstream(path, std::ios::binary).write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    }
    ~MadeFile() { std::filesystem::remove(path); }
};

} // namespace

int main(int argc, char** argv) {
    if (argc < 2) {
        std::fprintf(stderr, "%s: which picture? %s PICTURE.jpg|made [threads]\n", argv[0], argv[0]);
        return 1;
    }
    std::optional<MadeFile> made;
    if (std::string(argv[1]) == "made") made.emplace();
    const std::filesystem::path file = made ? made->path : std::filesystem::path(argv[1]);
    if (argc > 2) omp_set_num_threads(std::max(1, std::atoi(argv[2])));
    constexpr double budget_s = 1;
    reference::Looking how;
    const auto needed = [&how](int w, int h) {
        how.sheet = reference::sheet_for(w, h, "the picture");
        return how.sheet.width_mm * reference::looked_at_pixels_per_mm(how.sheet) / w;
    };
    grid::Photograph photo;
    reference::PictureMasses found;
    const double whole_s = bench::best_s(budget_s, [&] { photo = grid::read_photograph(file); });
    const double megapixels = 1e-6 * photo.full_width * photo.full_height;
    const double decode_s = bench::best_s(budget_s, [&] { photo = grid::read_photograph(file, {}, {}, needed); });
    needed(photo.full_width, photo.full_height);
    const double masses_s = bench::best_s(budget_s, [&] { found = reference::masses_in(photo.picture, how); });
    const double shape_s = bench::best_s(budget_s, [&] {
        const reference::Connected shape = reference::connected_shape(found.masses, found.pixels_per_mm);
        reference::painting_order(found.masses, shape, found.pixels_per_mm);
    });
    bench::print_load();
    std::printf("# %.1f megapixels to %zu masses, %d threads\n", megapixels, found.masses.list.size(), omp_get_max_threads());
    std::printf("decode_whole_s,decode_s,masses_s,shape_and_order_s,to_masses_s\n%.3f,%.3f,%.3f,%.3f,%.3f\n", whole_s, decode_s, masses_s,
                shape_s, decode_s + masses_s);
}
