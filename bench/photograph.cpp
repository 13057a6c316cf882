// From a large photograph to its masses, as squint finds them: seconds for decoding it whole, for decoding what the masses
// need, for value map and squinting, for the connected shape and its order; each the best of some runs.
//
//   photograph PICTURE.jpg [threads, all]
#include <omp.h>

#include <algorithm>
#include <cstdio>

#include "grid/calm_threads.h"
#include "reference/order.h"
#include "reference/picture_masses.h"
#include "timing.h"

TIDEMARK_BRISK_THREADS

using namespace tidemark;

int main(int argc, char** argv) {
    if (argc < 2) {
        std::fprintf(stderr, "%s: which picture? %s PICTURE.jpg [threads]\n", argv[0], argv[0]);
        return 1;
    }
    if (argc > 2) omp_set_num_threads(std::max(1, std::atoi(argv[2])));
    constexpr double budget_s = 1;
    reference::Looking how;
    const auto needed = [&how](int w, int h) {
        how.sheet = reference::sheet_for(w, h, "the picture");
        return how.sheet.width_mm * reference::looked_at_pixels_per_mm(how.sheet) / w;
    };
    grid::Photograph photo;
    reference::PictureMasses found;
    const double whole_s = bench::best_s(budget_s, [&] { photo = grid::read_photograph(argv[1]); });
    const double megapixels = 1e-6 * photo.full_width * photo.full_height;
    const double decode_s = bench::best_s(budget_s, [&] { photo = grid::read_photograph(argv[1], {}, {}, needed); });
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
