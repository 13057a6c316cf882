/// Draws the icon: on a sheet of paper one wash that dried from its edge, with a bloom in it: draw_icon FOLDER.
///
/// FOLDER/SIZE.png for each size, and tidemark-viewer.svg. Lengths are 256ths of the icon. Paint takes light away by
/// exp(-k load), the rim holds more of it; for small sizes the rim is as wide as a pixel shows.
#include <cairo.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace {

using Rgb = std::array<double, 3>;

constexpr double pi = 3.14159265358979, whole = 256;
constexpr double sheet_margin = 10, sheet_corner = 9, border = 3;
constexpr double middle_x = 126, middle_y = 131;
constexpr double bloom_x = 103, bloom_y = 108;
constexpr Rgb paper{0.973, 0.953, 0.914}, edge{0.78, 0.75, 0.69}, taken{2.05, 1.02, 0.34}; // of red, green, blue by a load of 1
constexpr double load_top = 0.42, load_foot = 0.62, load_rim = 0.75, rim_inside = 7;
constexpr double load_bloom = -0.27, load_bloom_rim = 0.34, bloom_rim = 4;

double wash_radius(double a) {
    return 84 + 6 * std::cos(2 * a + 0.6) + 4 * std::cos(3 * a - 1) + 2 * std::cos(5 * a + 2) + 1.2 * std::cos(9 * a);
}
double bloom_radius(double a) {
    return 33 + 2.6 * std::cos(2 * a - 1) + 2.2 * std::cos(7 * a) + 2.0 * std::cos(11 * a + 1.5) + 1.3 * std::cos(17 * a + 0.4);
}

/// How far inside an outline a place is; below 0 outside.
double inside(double x, double y, double cx, double cy, double (*radius)(double)) {
    const double dx = x - cx, dy = y - cy;
    return radius(std::atan2(dy, dx)) - std::hypot(dx, dy);
}

double load_at(double x, double y, double pixel) {
    const double in = inside(x, y, middle_x, middle_y, wash_radius);
    if (in < 0) return 0;
    const double foot = std::clamp((y - 45) / 170, 0.0, 1.0);
    double load = load_top + (load_foot - load_top) * foot;
    load += load_rim * std::exp(-in / std::max(rim_inside, 0.55 * pixel));
    if (pixel > 12) return load; // no bloom is to be seen
    const double of_bloom = inside(x, y, bloom_x, bloom_y, bloom_radius);
    if (of_bloom > 0) load += load_bloom * (1 - 0.35 * std::exp(-of_bloom / 16));
    return load + load_bloom_rim * std::exp(-std::fabs(of_bloom) / (of_bloom > 0 ? 1.6 : bloom_rim));
}

/// How far inside the sheet.
double in_sheet(double x, double y) {
    const double half = whole / 2 - sheet_margin;
    const double dx = std::fabs(x - whole / 2) - half + sheet_corner, dy = std::fabs(y - whole / 2) - half + sheet_corner;
    return sheet_corner - std::hypot(std::max(dx, 0.0), std::max(dy, 0.0)) - std::min(std::max(dx, dy), 0.0);
}

Rgb colour_at(double x, double y, double pixel) {
    if (in_sheet(x, y) < std::max(border, 0.6 * pixel)) return edge;
    Rgb c = paper;
    const double load = load_at(x, y, pixel);
    for (int k = 0; k < 3; ++k) c[k] *= std::exp(-taken[k] * load);
    return c;
}

void write_png(const std::filesystem::path& file, int size) {
    const int fine = size >= 128 ? 6 : 12; // samples along a pixel
    const double pixel = whole / size;
    cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_ARGB32, size, size);
    unsigned char* bytes = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    for (int y = 0; y < size; ++y)
        for (int x = 0; x < size; ++x) {
            Rgb sum{};
            int there = 0;
            for (int j = 0; j < fine; ++j)
                for (int i = 0; i < fine; ++i) {
                    const double px = (x + (i + 0.5) / fine) * pixel, py = (y + (j + 0.5) / fine) * pixel;
                    if (in_sheet(px, py) < 0) continue;
                    const Rgb c = colour_at(px, py, pixel);
                    for (int k = 0; k < 3; ++k) sum[k] += c[k];
                    ++there;
                }
            const auto byte = [&](double v) { return static_cast<std::uint32_t>(std::lround(255 * v / (fine * fine))); };
            reinterpret_cast<std::uint32_t*>(bytes + y * stride)[x] = byte(there) << 24 | byte(sum[0]) << 16 | byte(sum[1]) << 8 | byte(sum[2]);
        }
    cairo_surface_mark_dirty(surface);
    if (cairo_surface_write_to_png(surface, file.c_str()) != CAIRO_STATUS_SUCCESS) {
        std::fprintf(stderr, "%s: can't be written\n", file.c_str());
        std::exit(3);
    }
    cairo_surface_destroy(surface);
}

std::string path(double cx, double cy, double (*radius)(double), int points) {
    std::string d;
    for (int k = 0; k < points; ++k) {
        const double a = 2 * pi * k / points;
        d += fmt::format("{}{:.1f} {:.1f}", k == 0 ? "M" : "L", cx + radius(a) * std::cos(a), cy + radius(a) * std::sin(a));
    }
    return d + "Z";
}

std::string hex(double load) {
    std::string text = "#";
    for (int k = 0; k < 3; ++k) text += fmt::format("{:02x}", std::lround(255 * paper[k] * std::exp(-taken[k] * load)));
    return text;
}

std::string hex(const Rgb& c) {
    return fmt::format("#{:02x}{:02x}{:02x}", std::lround(255 * c[0]), std::lround(255 * c[1]), std::lround(255 * c[2]));
}

/// The same sheet; the rims are strokes of falling strength, cut off at the outline.
void write_svg(const std::filesystem::path& file) {
    const std::string wash = path(middle_x, middle_y, wash_radius, 120), bloom = path(bloom_x, bloom_y, bloom_radius, 160);
    std::string s = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"256\" height=\"256\" viewBox=\"0 0 256 256\">\n"
        "<title>A wash with its tidemark</title>\n<defs>\n"
        "<linearGradient id=\"g\" x1=\"0\" y1=\"0\" x2=\"0\" y2=\"1\"><stop offset=\"0\" stop-color=\"{}\"/>"
        "<stop offset=\"1\" stop-color=\"{}\"/></linearGradient>\n"
        "<clipPath id=\"w\"><path id=\"o\" d=\"{}\"/></clipPath>\n<path id=\"b\" d=\"{}\"/>\n</defs>\n",
        hex(load_top), hex(load_foot), wash, bloom);
    const double at = sheet_margin + border / 2, side = whole - 2 * at;
    s += fmt::format("<rect x=\"{0:.1f}\" y=\"{0:.1f}\" width=\"{1:.1f}\" height=\"{1:.1f}\" rx=\"{2}\" fill=\"{3}\" stroke=\"{4}\" "
                     "stroke-width=\"{5}\"/>\n<g clip-path=\"url(#w)\" fill=\"none\" stroke-linejoin=\"round\">\n"
                     "<path d=\"{6}\" fill=\"url(#g)\"/>\n<use href=\"#b\" fill=\"{7}\" fill-opacity=\"0.85\"/>\n",
                     at, side, sheet_corner - border / 2, hex(paper), hex(edge), border, wash, hex(0.5 * (load_top + load_foot) + 0.85 * load_bloom));
    for (const double width : {9.0, 6.0, 3.5, 1.8}) // of the bloom
        s += fmt::format("<use href=\"#b\" stroke=\"{}\" stroke-opacity=\"0.2\" stroke-width=\"{}\"/>\n", hex(0.9), width);
    for (const double width : {34.0, 24.0, 16.0, 10.0, 5.0}) // half of it lies outside
        s += fmt::format("<path d=\"{}\" stroke=\"{}\" stroke-opacity=\"0.24\" stroke-width=\"{}\"/>\n", wash, hex(load_foot + load_rim), width);
    std::ofstream(file) << s << "</g>\n</svg>\n";
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fputs("draw_icon FOLDER\n", stderr);
        return 2;
    }
    const std::filesystem::path folder = argv[1];
    for (const int size : {16, 22, 24, 32, 48, 64, 128, 256}) write_png(folder / fmt::format("{}.png", size), size);
    write_svg(folder / "tidemark-viewer.svg");
    return 0;
}
