// A file given as photograph, mask, order of painting or squint's memory of its groups: read within its limits, or BadInput.
//
// A PNG's chunks carry checksums: they are made right again after each change, else nothing behind them would be reached.
#include <cstring>

#include "fuzz/memory_file.h"
#include "grid/picture.h"
#include "grid/png_chunks_detail.h"
#include "grid/problem.h"
#include "reference/masks.h"

using namespace tidemark;

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t*, std::size_t, std::size_t);

namespace {

std::uint32_t u32(const std::uint8_t* b) { return static_cast<std::uint32_t>(b[0]) << 24 | b[1] << 16 | b[2] << 8 | b[3]; }

void mend_checksums(std::uint8_t* png, std::size_t n) {
    for (std::size_t at = sizeof grid::png_signature; n >= 12 && at <= n - 12;) {
        const std::size_t length = u32(png + at);
        if (length > n - at - 12) return;
        const std::uint32_t crc = grid::png_crc({png + at + 4, length + 4});
        for (int k = 0; k < 4; ++k) png[at + 8 + length + k] = static_cast<std::uint8_t>(crc >> (24 - 8 * k));
        at += length + 12;
    }
}

template <class Read> void read(Read&& read) {
    try {
        read();
    } catch (const grid::BadInput& bad) {
        if (bad.problems().size() != 1 || bad.problems().front().where.empty()) std::abort();
    }
}

} // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* bytes, std::size_t n, std::size_t most, unsigned seed) {
    n = LLVMFuzzerMutate(bytes, n, most);
    const bool png = n >= sizeof grid::png_signature && std::memcmp(bytes, grid::png_signature, sizeof grid::png_signature) == 0;
    if (png && seed % 8 != 0) mend_checksums(bytes, n);
    return n;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t n) {
    static const trust::MemoryFile held;
    static const std::filesystem::path groups = trust::named(held, reference::made_from_name(3));
    constexpr grid::PictureLimits limits{.max_pixels = 1 << 16, .max_file_bytes = 1 << 20, .max_memory_bytes = 4 << 20};
    held.hold(bytes, n);
    read([&] {
        const grid::Picture p = grid::read_picture(held.path(), "picture", limits);
        if (p.rgb.size() != 3ull * p.width * p.height) std::abort();
    });
    read([&] { grid::read_photograph(held.path(), "photograph", limits, [](int width, int height) { return 24.0 / (width + height); }); });
    read([&] {
        grid::PictureLimits over_nothing = limits;
        over_nothing.under = 0;
        for (const float v : grid::read_grey(held.path(), "mask", over_nothing).value)
            if (!(v >= 0 && v <= 1.0001f)) std::abort();
    });
    read([&] { reference::read_made_from(groups.parent_path(), 3); });
    return 0;
}
