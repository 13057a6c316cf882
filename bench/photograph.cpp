// From a large photograph to its masses: seconds for decoding it whole, for decoding what the masses need, for the value
// map, for squinting, for the connected shape and its order; each the best of some runs.
//
//   photograph PICTURE.jpg [threads, all]
#include <omp.h>

#include <cmath>
#include <cstdio>

#include "grid/calm_threads.h"
#include "reference/lights_to_save.h"
#include "reference/order.h"
#include "reference/squint.h"
#include "timing.h"

TIDEMARK_BRISK_THREADS

using namespace tidemark;

int main(int argc, char** argv) {
    if (argc < 2) {
        std::fprintf(stderr, "%s: which picture? %s PICTURE.jpg [threads]\n", argv[0], argv[0]);
        return 1;
    }
    if (argc > 2) omp_set_num_threads(std::max(1, std::atoi(argv[2])));
    constexpr double longest_mm = 280, pixels_per_mm = 4, budget_s = 1;
    const auto needed = [](int w, int h) { return longest_mm * pixels_per_mm / std::max(w, h); };
    grid::Photograph photo;
    reference::ValueMap map;
    reference::SquintResult squinted;
    reference::Connected shape;
    const double whole_s = bench::best_s(budget_s, [&] { photo = grid::read_photograph(argv[1]); });
    const double megapixels = 1e-6 * photo.full_width * photo.full_height;
    const double decode_s = bench::best_s(budget_s, [&] { photo = grid::read_photograph(argv[1], {}, {}, needed); });
    const double scale = longest_mm * pixels_per_mm / std::max(photo.picture.width, photo.picture.height);
    const int width = static_cast<int>(std::lround(scale * photo.picture.width)), height = static_cast<int>(std::lround(scale * photo.picture.height));
    const double map_s = bench::best_s(budget_s, [&] { map = resized(reference::value_map(photo.picture), width, height); });
    const double squint_s =
        bench::best_s(budget_s, [&] { squinted = reference::squint(map, pixels_per_mm, 3, {.simplify_mm = 2}); });
    const double shape_s = bench::best_s(budget_s, [&] {
        shape = reference::connected_shape(squinted.masses, pixels_per_mm);
        reference::painting_order(squinted.masses, shape, pixels_per_mm);
    });
    bench::print_load();
    std::printf("# %.1f megapixels to %zu masses, %d threads\n", megapixels, squinted.masses.list.size(), omp_get_max_threads());
    std::printf("decode_whole_s,decode_s,value_map_s,squint_s,shape_and_order_s,to_masses_s\n%.3f,%.3f,%.3f,%.3f,%.3f,%.3f\n", whole_s,
                decode_s, map_s, squint_s, shape_s, decode_s + map_s + squint_s);
}
