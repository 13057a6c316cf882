#include "draw.h"

#include "scene.h"

#include <cstddef>

namespace orchard {
namespace {

using tidemark::grid::GreyPicture;

constexpr int looks = 3; ///< across and down, in a pixel

Point look_at(int x, int y, int i, int j, double pixels_per_mm) {
    return {(x + (i + 0.5) / looks) / pixels_per_mm, (y + (j + 0.5) / looks) / pixels_per_mm};
}

/// Code values from a mean of squares, in steps: calm planes as a brush would lay them, and a file that packs well.
/// Lightness goes in fine steps, the two differences of colour in coarse ones.
void stepped(Colour square_mean, std::uint8_t* rgb) {
    const auto step = [](double v, double by) { return by * std::floor(v / by + 0.5); };
    const auto code = [](double v) { return static_cast<std::uint8_t>(std::clamp(v, 0.0, 255.0)); };
    const double red = std::sqrt(square_mean.r), green = std::sqrt(square_mean.g), blue = std::sqrt(square_mean.b);
    const double light = step(0.3 * red + 0.59 * green + 0.11 * blue, 6);
    const double warm = step(red - green, 8), cool = step(blue - green, 8);
    const double base = light - 0.3 * warm - 0.11 * cool;
    rgb[0] = code(base + warm + 0.5);
    rgb[1] = code(base + 0.5);
    rgb[2] = code(base + cool + 0.5);
}

/// Numbers the pieces of what is at least half inside, neighbours being left, right, above, below; 0: none.
std::vector<int> pieces(const GreyPicture& m, int& largest) {
    std::vector<int> piece(m.value.size(), 0), todo;
    std::size_t most = 0;
    int count = 0;
    for (std::size_t start = 0; start < piece.size(); ++start) {
        if (m.value[start] < 0.5f || piece[start] != 0)
            continue;
        piece[start] = ++count;
        todo.assign(1, static_cast<int>(start));
        std::size_t size = 0;
        while (!todo.empty()) {
            const int at = todo.back(), x = at % m.width, y = at / m.width;
            todo.pop_back();
            ++size;
            const int next[4] = {x > 0 ? at - 1 : at, x + 1 < m.width ? at + 1 : at, y > 0 ? at - m.width : at,
                                 y + 1 < m.height ? at + m.width : at};
            for (const int n : next)
                if (const auto k = static_cast<std::size_t>(n); m.value[k] >= 0.5f && piece[k] == 0) {
                    piece[k] = count;
                    todo.push_back(n);
                }
        }
        if (size > most) {
            most = size;
            largest = count;
        }
    }
    return piece;
}

/// Keeps the largest piece with its soft edge, two pixels wide at most.
void keep_largest(GreyPicture& m) {
    int largest = 0;
    const std::vector<int> piece = pieces(m, largest);
    const GreyPicture all = m;
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x) {
            bool near = false;
            for (int j = std::max(y - 1, 0); j <= std::min(y + 1, m.height - 1); ++j)
                for (int i = std::max(x - 1, 0); i <= std::min(x + 1, m.width - 1); ++i)
                    near |= piece[static_cast<std::size_t>(j) * m.width + i] == largest;
            const std::size_t k = static_cast<std::size_t>(y) * m.width + x;
            const bool other = piece[k] != 0 && piece[k] != largest;
            m.value[k] = near && !other ? all.value[k] : 0.0f;
        }
}

} // namespace

void reference_pixel(int x, int y, std::uint8_t* rgb) {
    Colour sum;
    for (int j = 0; j < looks; ++j)
        for (int i = 0; i < looks; ++i) {
            const Colour c = look(look_at(x, y, i, j, reference_pixels_per_mm)).colour;
            sum = {sum.r + c.r * c.r, sum.g + c.g * c.g, sum.b + c.b * c.b};
        }
    stepped(scaled(sum, 1.0 / (looks * looks)), rgb);
}

tidemark::grid::Picture draw_reference() {
    tidemark::grid::Picture p{static_cast<int>(width_mm * reference_pixels_per_mm),
                              static_cast<int>(height_mm * reference_pixels_per_mm),
                              {}};
    p.rgb.resize(std::size_t{3} * p.width * p.height);
#pragma omp parallel for schedule(dynamic)
    for (int y = 0; y < p.height; ++y)
        for (int x = 0; x < p.width; ++x)
            reference_pixel(x, y, p.at(x, y));
    return p;
}

void mask_pixel(int x, int y, std::span<float> share) {
    std::fill(share.begin(), share.end(), 0.0f);
    for (int j = 0; j < looks; ++j)
        for (int i = 0; i < looks; ++i) {
            const Seen seen = look(look_at(x, y, i, j, mask_pixels_per_mm));
            for (std::size_t k = 0; k < areas().size(); ++k)
                share[k] += areas()[k].holds(seen) ? 1.0f / (looks * looks) : 0.0f;
        }
}

std::vector<GreyPicture> draw_masks() {
    const int width = static_cast<int>(width_mm * mask_pixels_per_mm);
    const int height = static_cast<int>(height_mm * mask_pixels_per_mm);
    std::vector<GreyPicture> masks(areas().size(), GreyPicture{width, height, {}});
    for (GreyPicture& m : masks)
        m.value.resize(std::size_t{1} * width * height);
#pragma omp parallel for schedule(dynamic)
    for (int y = 0; y < height; ++y) {
        std::vector<float> share(masks.size());
        for (int x = 0; x < width; ++x) {
            mask_pixel(x, y, share);
            for (std::size_t k = 0; k < masks.size(); ++k)
                masks[k].value[static_cast<std::size_t>(y) * width + x] = share[k];
        }
    }
    for (std::size_t k = 0; k < masks.size(); ++k)
        if (areas()[k].one_piece)
            keep_largest(masks[k]);
    return masks;
}

} // namespace orchard
