/// Draws the reference and the masks of the demo plan beside it: a walled orchard in early light, an invented scene.
/// The committed reference has these pixels; a general PNG packer has made its file smaller.
///
///   draw_orchard FOLDER      writes reference.png and masks/*.png
#include "draw.h"
#include "grid/calm_threads.h"
#include "grid/files.h"

#include <cstdio>
#include <exception>
#include <string>

TIDEMARK_CALM_THREADS

int main(int argc, char** argv) try {
    if (argc != 2) {
        std::fprintf(stderr, "usage: draw_orchard FOLDER\n");
        return 2;
    }
    tidemark::grid::OutputFolder out(argv[1]);
    out.write("reference.png",
              tidemark::grid::png_bytes(orchard::draw_reference(), 1000 * orchard::reference_pixels_per_mm));
    const auto masks = orchard::draw_masks();
    for (std::size_t k = 0; k < masks.size(); ++k)
        out.write("masks/" + std::string(orchard::areas()[k].name) + ".png", tidemark::grid::png_bytes(masks[k]));
    out.commit();
    return 0;
} catch (const std::exception& e) {
    std::fprintf(stderr, "draw_orchard: %s\n", e.what());
    return 3;
}
