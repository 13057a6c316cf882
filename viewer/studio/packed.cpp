#include "grid/problem.h"
#include "viewer/studio/packed_detail.h"

#include <algorithm>
#include <functional>
#include <zlib.h>

namespace tidemark::viewer {

namespace {

/// What a part is made of: each vector with its bytes a row and rows a band.
void each_plane(Moment& m, int part, const std::function<void(std::vector<std::uint8_t>&, std::size_t row_bytes, int rows)>& f) {
    const auto nx = static_cast<std::size_t>(m.nx);
    if (part == 0) f(m.now_rgb, 3 * nx, band_rows);
    if (part == 1) f(m.dried_rgb, 3 * nx, band_rows), f(m.lstar_code, nx, band_rows);
    if (part == 2) f(m.film_code, nx, band_rows), f(m.moisture_code, nx, band_rows), f(m.stage, nx, band_rows);
    if (part == 3)
        for (auto& codes : m.load_codes) f(codes, static_cast<std::size_t>(m.load_nx()), band_rows / 2);
}

struct Range {
    std::size_t begin, end;
};
Range range_of(const std::vector<std::uint8_t>& plane, std::size_t row_bytes, int rows, int band) {
    const std::size_t one = row_bytes * static_cast<std::size_t>(rows);
    return {std::min(plane.size(), one * band), std::min(plane.size(), one * (band + 1))};
}

} // namespace

int bands_of(const Moment& m) { return (m.ny + band_rows - 1) / band_rows; }

std::vector<std::uint8_t> band_bytes(const Moment& m, int part, int band) {
    std::vector<std::uint8_t> all;
    each_plane(const_cast<Moment&>(m), part, [&](auto& plane, std::size_t row_bytes, int rows) { // read only
        const Range r = range_of(plane, row_bytes, rows, band);
        all.insert(all.end(), plane.begin() + static_cast<std::ptrdiff_t>(r.begin), plane.begin() + static_cast<std::ptrdiff_t>(r.end));
    });
    return all;
}

void put_band(Moment& m, int part, int band, std::span<const std::uint8_t> bytes) {
    std::size_t at = 0;
    each_plane(m, part, [&](auto& plane, std::size_t row_bytes, int rows) {
        const Range r = range_of(plane, row_bytes, rows, band);
        std::copy_n(bytes.begin() + static_cast<std::ptrdiff_t>(at), r.end - r.begin, plane.begin() + static_cast<std::ptrdiff_t>(r.begin));
        at += r.end - r.begin;
    });
}

void make_room(Moment& m, unsigned parts, std::size_t pigments) {
    const std::size_t n = static_cast<std::size_t>(m.nx) * m.ny;
    m.parts = parts;
    if (parts & part_now) m.now_rgb.resize(3 * n);
    if (parts & part_dried) m.dried_rgb.resize(3 * n), m.lstar_code.resize(n);
    if (parts & part_water) m.film_code.resize(n), m.moisture_code.resize(n), m.stage.resize(n);
    if (parts & part_pigments) {
        m.load_codes.resize(pigments);
        for (auto& codes : m.load_codes) codes.resize(static_cast<std::size_t>(m.load_nx()) * m.load_ny());
    }
}

Packed::Packed(std::span<const std::uint8_t> raw, int stride) : size_(raw.size()), stride_(stride) {
    std::vector<std::uint8_t> steps(raw.begin(), raw.end());
    for (std::size_t k = steps.size(); k-- > static_cast<std::size_t>(stride);)
        steps[k] = static_cast<std::uint8_t>(raw[k] - raw[k - static_cast<std::size_t>(stride)]);
    uLongf size = compressBound(static_cast<uLong>(steps.size()));
    bytes_.resize(size);
    if (compress2(bytes_.data(), &size, steps.data(), static_cast<uLong>(steps.size()), 1) != Z_OK)
        throw grid::InternalError("a moment could not be packed");
    bytes_.resize(size);
    bytes_.shrink_to_fit();
}

std::vector<std::uint8_t> Packed::raw() const {
    std::vector<std::uint8_t> out(size_);
    uLongf size = static_cast<uLongf>(size_);
    if (uncompress(out.data(), &size, bytes_.data(), static_cast<uLong>(bytes_.size())) != Z_OK || size != size_)
        throw grid::InternalError("a kept moment could not be unpacked");
    for (std::size_t k = static_cast<std::size_t>(stride_); k < out.size(); ++k)
        out[k] = static_cast<std::uint8_t>(out[k] + out[k - static_cast<std::size_t>(stride_)]);
    return out;
}

} // namespace tidemark::viewer
