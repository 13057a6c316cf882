#include "report/line_drawing.h"

#include "grid/clean_text.h"
#include "grid/picture.h"
#include "grid/problem.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <cmath>
#include <functional>
#include <memory>

namespace tidemark::report {

namespace {

using Bytes = std::vector<std::uint8_t>;
using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;

void look_for_errors(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw grid::InternalError(std::string("a drawing can't be written (") + cairo_status_to_string(status) + ")");
}

cairo_status_t append(void* to, const unsigned char* bytes, unsigned int count) {
    auto& out = *static_cast<Bytes*>(to);
    out.insert(out.end(), bytes, bytes + count);
    return CAIRO_STATUS_SUCCESS;
}

void add_path(cairo_t* cairo, const Stroke& stroke, double scale) {
    cairo_new_sub_path(cairo);
    for (const reference::PointMm& p : stroke.points) cairo_line_to(cairo, p.x * scale, p.y * scale);
    if (stroke.points.size() == 1) cairo_line_to(cairo, stroke.points[0].x * scale, stroke.points[0].y * scale);
    if (stroke.ring) cairo_close_path(cairo);
}

/// Strokes of one pen in a row are one line to cairo: where they cross, or meet, nothing gets darker.
void draw(cairo_surface_t* surface, const LineDrawing& drawing, double scale) {
    const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> cairo(cairo_create(surface), &cairo_destroy);
    cairo_set_source_rgb(cairo.get(), 1, 1, 1);
    cairo_paint(cairo.get());
    cairo_set_line_cap(cairo.get(), CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(cairo.get(), CAIRO_LINE_JOIN_ROUND);
    for (std::size_t k = 0; k < drawing.strokes.size(); ++k) {
        const Stroke& stroke = drawing.strokes[k];
        add_path(cairo.get(), stroke, scale);
        if (k + 1 < drawing.strokes.size() && drawing.strokes[k + 1].pen == stroke.pen) continue;
        cairo_set_source_rgb(cairo.get(), stroke.pen.r, stroke.pen.g, stroke.pen.b);
        cairo_set_line_width(cairo.get(), stroke.pen.width_mm * scale);
        cairo_stroke(cairo.get());
    }
    look_for_errors(cairo_status(cairo.get()));
}

Bytes finished(Surface surface, const LineDrawing& drawing, double scale, const Bytes& out) {
    look_for_errors(cairo_surface_status(surface.get()));
    draw(surface.get(), drawing, scale);
    cairo_surface_finish(surface.get());
    look_for_errors(cairo_surface_status(surface.get()));
    return out;
}

} // namespace

int print_pixels(double mm) { return std::max(1, static_cast<int>(std::lround(mm * print_pixels_per_mm))); }

Bytes svg_bytes(const LineDrawing& drawing) {
    Bytes out;
    Surface surface(cairo_svg_surface_create_for_stream(&append, &out, drawing.width_mm, drawing.height_mm),
                    &cairo_surface_destroy);
    cairo_svg_surface_set_document_unit(surface.get(), CAIRO_SVG_UNIT_MM);
    return finished(std::move(surface), drawing, 1, out);
}

Bytes pdf_bytes(const LineDrawing& drawing) {
    constexpr double points_per_mm = 72 / 25.4;
    Bytes out;
    Surface surface(cairo_pdf_surface_create_for_stream(&append, &out, drawing.width_mm * points_per_mm,
                                                        drawing.height_mm * points_per_mm),
                    &cairo_surface_destroy);
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE,
                                   grid::clean_text(drawing.title).c_str());
    // It writes the hour of the day unless it is told another; an empty one is left out.
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "");
    return finished(std::move(surface), drawing, points_per_mm, out);
}

Bytes png_bytes(const LineDrawing& drawing) {
    const int width = print_pixels(drawing.width_mm), height = print_pixels(drawing.height_mm);
    const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height), &cairo_surface_destroy);
    look_for_errors(cairo_surface_status(surface.get()));
    draw(surface.get(), drawing, print_pixels_per_mm);
    cairo_surface_flush(surface.get());
    grid::Picture picture{width, height, Bytes(3 * static_cast<std::size_t>(width) * height)};
    const unsigned char* pixels = cairo_image_surface_get_data(surface.get());
    const int stride = cairo_image_surface_get_stride(surface.get());
    for (int y = 0; y < height; ++y) {
        const auto* row = reinterpret_cast<const std::uint32_t*>(pixels + static_cast<std::ptrdiff_t>(y) * stride);
        for (int x = 0; x < width; ++x)
            for (int c = 0; c < 3; ++c) picture.at(x, y)[c] = static_cast<std::uint8_t>(row[x] >> (16 - 8 * c));
    }
    return grid::png_bytes(picture, 1000 * print_pixels_per_mm);
}

} // namespace tidemark::report
