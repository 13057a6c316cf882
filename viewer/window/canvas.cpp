#include "viewer/window/canvas.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "grid/problem.h"

namespace tidemark::viewer {

namespace {

/// Where a row or column of the screen reads: the cell before, and how much of the one after it, of 256.
struct Reads {
    int before = 0, after = 0;
    unsigned share = 0;
    bool beyond = true;
};

std::vector<Reads> reads(int n, double first_mm, double mm_px, double size_mm, int cells) {
    std::vector<Reads> all(static_cast<std::size_t>(n));
    for (int k = 0; k < n; ++k) {
        const double mm = first_mm + (k + 0.5) * mm_px;
        if (mm < 0 || mm >= size_mm)
            continue;
        const double at = std::clamp(mm / size_mm * cells - 0.5, 0.0, cells - 1.0);
        Reads& r = all[static_cast<std::size_t>(k)];
        r.before = static_cast<int>(at);
        r.after = std::min(r.before + 1, cells - 1);
        r.share = static_cast<unsigned>((at - r.before) * 256);
        r.beyond = false;
    }
    return all;
}

/// The mean of `by` × `by` cells.
Pixels reduced(const Pixels& p, int by) {
    Pixels small{(p.width + by - 1) / by, (p.height + by - 1) / by, {}};
    small.rgba.resize(4 * static_cast<std::size_t>(small.width) * static_cast<std::size_t>(small.height));
    for (int y = 0; y < small.height; ++y)
        for (int x = 0; x < small.width; ++x) {
            unsigned sum[4] = {0, 0, 0, 0}, n = 0;
            for (int b = y * by; b < std::min(p.height, (y + 1) * by); ++b)
                for (int a = x * by; a < std::min(p.width, (x + 1) * by); ++a, ++n)
                    for (std::size_t c = 0; c < 4; ++c)
                        sum[c] += p.rgba[4 * (static_cast<std::size_t>(b) * p.width + a) + c];
            for (std::size_t c = 0; c < 4; ++c)
                small.rgba[4 * (static_cast<std::size_t>(y) * small.width + x) + c] =
                    static_cast<std::uint8_t>((sum[c] + n / 2) / n);
        }
    return small;
}

} // namespace

void Canvas::size(int w, int h, Colour c) {
    width = std::max(w, 1), height = std::max(h, 1);
    px.assign(static_cast<std::size_t>(width) * static_cast<std::size_t>(height), c);
}

void Canvas::blend(int x, int y, Colour c, float share) {
    if (x < 0 || y < 0 || x >= width || y >= height || share <= 0)
        return;
    Colour& p = px[static_cast<std::size_t>(y) * width + x];
    const auto s = static_cast<unsigned>(std::min(share, 1.0F) * 256);
    // Two channels at once, and alpha as well: how much of what lies below is covered.
    constexpr Colour two = 0xFF00FF;
    p = (((p & two) * (256 - s) + (c & two) * s) >> 8 & two) | (((p >> 8 & two) * (256 - s) + (c >> 8 & two) * s) & ~two);
}

void lay_over(Canvas& below, const Canvas& over) {
    for (std::size_t k = 0; k < std::min(below.px.size(), over.px.size()); ++k) {
        const Colour o = over.px[k];
        if (o == 0)
            continue;
        const unsigned left = 255 - (o >> 24), share = left + (left >> 7); // of 256
        Colour mixed = 0xFF000000;
        for (unsigned shift = 0; shift < 24; shift += 8)
            mixed |= std::min(255U, (((below.px[k] >> shift) & 0xFF) * share >> 8) + ((o >> shift) & 0xFF)) << shift;
        below.px[k] = mixed;
    }
}

void draw_sheet(Canvas& canvas, const Rect& area, const SheetView& view, const Rect& pane, const Pixels& pixels, float x0,
                float x1) {
    if (pixels.width < 1 || pixels.height < 1)
        return;
    const double cell_px = view.px_per_mm() * view.width_mm() / pixels.width;
    if (const int by = static_cast<int>(std::lround(1 / cell_px)); by >= 2)
        return draw_sheet(canvas, area, view, pane, reduced(pixels, by), x0, x1);
    const double mm_px = 1 / view.px_per_mm();
    const Spot_mm corner = view.mm(area.x0, area.y0, pane);
    const std::vector<Reads> across = reads(canvas.width, corner.x, mm_px, view.width_mm(), pixels.width);
    const std::vector<Reads> down = reads(canvas.height, corner.y, mm_px, view.height_mm(), pixels.height);
    int left = std::clamp(static_cast<int>(std::max(x0, pane.x0) - area.x0), 0, canvas.width);
    int right = std::clamp(static_cast<int>(std::min(x1, pane.x1) - area.x0), left, canvas.width);
    while (left < right && across[static_cast<std::size_t>(left)].beyond)
        ++left;
    while (right > left && across[static_cast<std::size_t>(right - 1)].beyond)
        --right;
    if (left == right)
        return;
    // Cells of one row of the screen, mixed from two rows of the sheet; then along it.
    std::vector<std::uint16_t> mixed(4 * static_cast<std::size_t>(pixels.width));
    const int first = across[static_cast<std::size_t>(left)].before,
              last = across[static_cast<std::size_t>(right - 1)].after;
    for (int y = 0; y < canvas.height; ++y) {
        const Reads& row = down[static_cast<std::size_t>(y)];
        if (row.beyond)
            continue;
        const std::uint8_t* a = pixels.rgba.data() + 4 * static_cast<std::size_t>(row.before) * pixels.width;
        const std::uint8_t* b = pixels.rgba.data() + 4 * static_cast<std::size_t>(row.after) * pixels.width;
        const unsigned s = row.share;
        for (int k = 4 * first; k < 4 * (last + 1); ++k)
            mixed[static_cast<std::size_t>(k)] = static_cast<std::uint16_t>(a[k] * (256 - s) + b[k] * s);
        Colour* out = canvas.px.data() + static_cast<std::size_t>(y) * canvas.width;
        for (int x = left; x < right; ++x) {
            const Reads& r = across[static_cast<std::size_t>(x)];
            const std::uint16_t* p = mixed.data() + 4 * r.before;
            const std::uint16_t* q = mixed.data() + 4 * r.after;
            const unsigned t = r.share, u = 256 - t;
            out[x] = 0xFF000000U | ((p[2] * u + q[2] * t) & 0xFF0000U) | (((p[1] * u + q[1] * t) >> 8) & 0xFF00U) |
                     ((p[0] * u + q[0] * t) >> 16);
        }
    }
}

namespace {

/// Narrows lo ... hi to those x for which least ≤ a·x ≤ most.
void narrow(float& lo, float& hi, float a, float least, float most) {
    if (std::abs(a) < 1e-6F) {
        if (least > 0 || most < 0)
            hi = lo - 1;
        return;
    }
    lo = std::max(lo, (a > 0 ? least : most) / a);
    hi = std::min(hi, (a > 0 ? most : least) / a);
}

} // namespace

void stroke(Canvas& canvas, const std::vector<Dot>& points, const Pen& pen) {
    float gone = 0; // along the line, for its dashes
    const float half = pen.width / 2, period = pen.dash + pen.gap;
    for (std::size_t k = 1; k < points.size(); ++k) {
        const Dot a = points[k - 1], b = points[k];
        const float dx = b.x - a.x, dy = b.y - a.y, length = std::hypot(dx, dy);
        if (length < 1e-4F)
            continue;
        const float ux = dx / length, uy = dy / length, begun = period > 0 ? std::fmod(gone, period) : 0;
        const auto pixel = [](float at, int most) { return static_cast<int>(std::clamp(at, 0.0F, static_cast<float>(most))); };
        const int top = pixel(std::min(a.y, b.y) - half - 1, canvas.height), foot = pixel(std::max(a.y, b.y) + half + 2, canvas.height);
        for (int y = top; y < foot; ++y) {
            const float py = static_cast<float>(y) + 0.5F - a.y, reach = half + 0.5F;
            // Across the stroke no farther than it reaches; along it no farther than it goes: joints are covered by the
            // neighbour's own pixels closely enough.
            float lo = std::min(a.x, b.x) - half - 1 - a.x, hi = std::max(a.x, b.x) + half + 1 - a.x;
            narrow(lo, hi, uy, py * ux - reach, py * ux + reach);
            narrow(lo, hi, ux, -py * uy, length - py * uy);
            if (lo > hi)
                continue;
            const int left = pixel(std::ceil(lo + a.x - 0.5F), canvas.width), right = pixel(std::floor(hi + a.x + 0.5F), canvas.width);
            for (int x = left; x < right; ++x) {
                const float px = static_cast<float>(x) + 0.5F - a.x;
                const float t = begun + std::max(0.0F, px * ux + py * uy);
                if (period > 0 && t - period * static_cast<float>(static_cast<int>(t / period)) > pen.dash)
                    continue;
                canvas.blend(x, y, pen.colour, pen.share * std::min(1.0F, reach - std::abs(px * uy - py * ux)));
            }
        }
        gone += length;
    }
}

void Shown::take(SDL_Renderer* renderer, const Canvas& canvas) {
    // As windows have their pixels, red in the third byte: then drawing is copying, a sixth of the time; the bytes are turned
    // round once here.
    if (!texture_ || canvas.width != width_ || canvas.height != height_) {
        texture_.reset(SDL_CreateTexture(renderer, SDL_PIXELFORMAT_RGB888, SDL_TEXTUREACCESS_STREAMING, canvas.width,
                                         canvas.height));
        width_ = canvas.width, height_ = canvas.height;
        if (texture_)
            SDL_SetTextureBlendMode(texture_.get(), SDL_BLENDMODE_NONE);
    }
    void* to = nullptr;
    int pitch = 0;
    if (!texture_ || SDL_LockTexture(texture_.get(), nullptr, &to, &pitch) != 0)
        throw grid::IoError(fmt::format("the window: a picture: {}", SDL_GetError()));
    for (int y = 0; y < height_; ++y) {
        const Colour* from = canvas.px.data() + static_cast<std::size_t>(y) * canvas.width;
        auto* row = reinterpret_cast<Uint32*>(static_cast<Uint8*>(to) + static_cast<std::size_t>(y) * pitch);
        for (int x = 0; x < width_; ++x)
            row[x] = (from[x] & 0xFF00FF00U) | (from[x] & 0xFFU) << 16 | (from[x] >> 16 & 0xFFU);
    }
    SDL_UnlockTexture(texture_.get());
}

} // namespace tidemark::viewer
