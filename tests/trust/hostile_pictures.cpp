/// Pictures as nobody should send them: cut off at every byte, claiming sizes they have not, of every kind; read, or refused in
/// one line, within bounded memory and time. Then the program with the worst of them, under caps.
///
/// Memory: the largest resident size of this process after all that is read under a cap of 32 MiB; of the program, as the kernel
/// counts its children. Time: of each single picture, by the processor's clock.
#include <fmt/format.h>
#include <sys/resource.h>
#include <zlib.h>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <functional>

#include "grid/picture.h"
#include "grid/problem.h"
#include "support/jpeg_builder.h"
#include "support/png_builder.h"
#include "support/program_run.h"

namespace {

namespace fs = std::filesystem;
using namespace tidemark;
using tests::Bytes;

constexpr double most_s = 5;
constexpr std::int64_t cap_mib = 32;

struct Count {
    int cut = 0, claims = 0, kinds = 0, runs = 0, read = 0, refused = 0;
    double slowest_s = 0;
    std::vector<std::string> wrong;
};

double cpu_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }
double resident_mib(int who) {
    rusage used{};
    getrusage(who, &used);
    return static_cast<double>(used.ru_maxrss) / 1024;
}

const tests::TemporaryFolder& folder() {
    static const tests::TemporaryFolder one;
    return one;
}

/// Read as a colour picture and as a mask. Empty: both were; else what is wrong with it.
std::string taken(Count& c, const Bytes& bytes, const std::string& what) {
    const fs::path file = folder().put("p", bytes);
    std::string line;
    const std::function<void()> ways[] = {[&] { grid::read_picture(file, "p"); }, [&] { grid::read_grey(file, "p"); },
                                          [&] { grid::read_photograph(file, "p", {}, [](int w, int h) { return 100.0 / (w + h); }); }};
    for (const auto& way : ways) {
        const double from = cpu_s();
        try {
            way();
            ++c.read;
        } catch (const grid::BadInput& bad) {
            ++c.refused;
            line = bad.what();
            if (bad.problems().size() != 1 || line.find('\n') != std::string::npos || !line.starts_with("p: ") || line.size() > 400)
                c.wrong.push_back(what + ": not one line: " + line);
        } catch (const std::exception& e) {
            c.wrong.push_back(what + ": " + e.what());
        }
        c.slowest_s = std::max(c.slowest_s, cpu_s() - from);
        if (cpu_s() - from > most_s) c.wrong.push_back(fmt::format("{}: {:.1f} s", what, cpu_s() - from));
    }
    return line;
}

Bytes deflated(const Bytes& rows) {
    uLongf size = compressBound(rows.size());
    Bytes z(size);
    compress2(z.data(), &size, rows.data(), rows.size(), 9);
    z.resize(size);
    return z;
}

/// A PNG with chunks before and after its data.
Bytes png_with(std::uint32_t w, std::uint32_t h, int depth, int type, const Bytes& rows, bool interlaced = false,
               const std::vector<std::pair<std::string, Bytes>>& before = {}, const std::vector<std::pair<std::string, Bytes>>& after = {}) {
    Bytes out(std::begin(grid::png_signature), std::end(grid::png_signature)), header;
    tests::put_u32(header, w), tests::put_u32(header, h);
    for (const int v : {depth, type, 0, 0, interlaced ? 1 : 0}) header.push_back(static_cast<std::uint8_t>(v));
    tests::put_chunk(out, "IHDR", header);
    for (const auto& [name, data] : before) tests::put_chunk(out, name, data);
    tests::put_chunk(out, "IDAT", deflated(rows));
    for (const auto& [name, data] : after) tests::put_chunk(out, name, data);
    tests::put_chunk(out, "IEND", {});
    return out;
}

/// Rows of that many bytes, each behind its filter byte.
Bytes rows_of(int rows, int bytes_a_row) {
    Bytes all;
    for (int y = 0; y < rows; ++y) {
        all.push_back(static_cast<std::uint8_t>(y % 5));
        for (int k = 0; k < bytes_a_row; ++k) all.push_back(static_cast<std::uint8_t>(31 * k + 7 * y));
    }
    return all;
}

Bytes frame_control(std::uint32_t n, std::uint32_t side) {
    Bytes b;
    for (const std::uint32_t v : {n, side, side, 0u, 0u}) tests::put_u32(b, v);
    for (const int v : {0, 1, 0, 10, 0, 0}) b.push_back(static_cast<std::uint8_t>(v));
    return b;
}

Bytes animated() {
    const Bytes rows = rows_of(4, 4);
    Bytes control, data;
    tests::put_u32(control, 2), tests::put_u32(control, 0);
    tests::put_u32(data, 2);
    const Bytes z = deflated(rows);
    data.insert(data.end(), z.begin(), z.end());
    return png_with(4, 4, 8, 0, rows, false, {{"acTL", control}, {"fcTL", frame_control(0, 4)}}, {{"fcTL", frame_control(1, 4)}, {"fdAT", data}});
}

Bytes palette(int depth) {
    const int colours = 1 << depth, a_row = (7 * depth + 7) / 8;
    Bytes table, rows;
    for (int k = 0; k < 3 * colours; ++k) table.push_back(static_cast<std::uint8_t>(5 * k));
    for (int y = 0; y < 3; ++y) {
        rows.push_back(0);
        for (int k = 0; k < a_row; ++k) rows.push_back(static_cast<std::uint8_t>(97 * k + y));
    }
    return png_with(7, 3, depth, 3, rows, false, {{"PLTE", table}, {"tRNS", {0, 128}}});
}

Bytes jpeg(int width, int height, int format, int sampling, int flags = 0) {
    Bytes pixels;
    for (int k = 0; k < width * height * tjPixelSize[format]; ++k) pixels.push_back(static_cast<std::uint8_t>(7 * k + k / width));
    return tests::jpeg_of(pixels, width, height, format, sampling, flags);
}

/// The same JPEG, saying it is another size (ITU-T T.81, B.2.2).
Bytes claiming(Bytes b, unsigned width, unsigned height) {
    for (std::size_t at = 2; at + 9 < b.size();) {
        if (b[at + 1] == 0xC0 || b[at + 1] == 0xC2) {
            b[at + 5] = static_cast<std::uint8_t>(height >> 8), b[at + 6] = static_cast<std::uint8_t>(height);
            b[at + 7] = static_cast<std::uint8_t>(width >> 8), b[at + 8] = static_cast<std::uint8_t>(width);
            return b;
        }
        at += 2 + (static_cast<std::size_t>(b[at + 2]) << 8 | b[at + 3]);
    }
    return b;
}

std::vector<std::pair<std::string, Bytes>> kinds() {
    std::vector<std::pair<std::string, Bytes>> all;
    for (const int depth : {1, 2, 4, 8, 16}) all.emplace_back(fmt::format("grey, {} bits", depth), png_with(7, 5, depth, 0, rows_of(5, (7 * depth + 7) / 8)));
    for (const int depth : {8, 16})
        for (const auto& [type, channels] : {std::pair{2, 3}, {4, 2}, {6, 4}})
            all.emplace_back(fmt::format("PNG of kind {}, {} bits", type, depth), png_with(7, 5, depth, type, rows_of(5, 7 * channels * depth / 8)));
    for (const int depth : {1, 2, 4, 8}) all.emplace_back(fmt::format("palette, {} bits", depth), palette(depth));
    all.emplace_back("interlaced", png_with(2, 2, 8, 0, {0, 1, 0, 2, 0, 3, 4}, true));
    all.emplace_back("animated", animated());
    for (const int n : {1, 255, 20000}) {
        all.emplace_back(fmt::format("1 x {}", n), png_with(1, static_cast<std::uint32_t>(n), 8, 0, rows_of(n, 1)));
        all.emplace_back(fmt::format("{} x 1", n), png_with(static_cast<std::uint32_t>(n), 1, 8, 2, rows_of(1, 3 * n)));
        all.emplace_back(fmt::format("JPEG 1 x {}", n), jpeg(1, n, TJPF_RGB, TJSAMP_420));
        all.emplace_back(fmt::format("JPEG {} x 1", n), jpeg(n, 1, TJPF_GRAY, TJSAMP_GRAY));
    }
    for (const auto& [name, sampling] : {std::pair{"4:4:4", TJSAMP_444}, {"4:2:0", TJSAMP_420}, {"4:1:1", TJSAMP_411}, {"4:4:0", TJSAMP_440}})
        for (const int flags : {0, TJFLAG_PROGRESSIVE}) all.emplace_back(fmt::format("JPEG {}{}", name, flags ? ", progressive" : ""), jpeg(19, 13, TJPF_RGB, sampling, flags));
    all.emplace_back("JPEG, grey", jpeg(19, 13, TJPF_GRAY, TJSAMP_GRAY));
    all.emplace_back("JPEG, CMYK", jpeg(19, 13, TJPF_CMYK, TJSAMP_444));
    all.emplace_back("JPEG, CMYK, progressive", jpeg(19, 13, TJPF_CMYK, TJSAMP_420, TJFLAG_PROGRESSIVE));
    for (int k = 1; k <= 9; ++k) all.emplace_back(fmt::format("JPEG turned {}", k), tests::with_orientation(jpeg(9, 4, TJPF_RGB, TJSAMP_444), k, k % 2));
    return all;
}

void try_all(Count& c) {
    for (const auto& [name, bytes] : kinds()) {
        ++c.kinds;
        const std::string line = taken(c, bytes, name);
        if (!line.empty()) c.wrong.push_back(name + " is refused: " + line);
        if (bytes.size() > 3000) continue;
        for (std::size_t n = 0; n < bytes.size(); ++n) {
            ++c.cut;
            taken(c, Bytes(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(n)), fmt::format("{}, cut at {}", name, n));
        }
    }
    const Bytes photo = jpeg(64, 48, TJPF_RGB, TJSAMP_420), passes = jpeg(64, 48, TJPF_RGB, TJSAMP_420, TJFLAG_PROGRESSIVE);
    for (const std::uint32_t w : {0u, 1u, 64u, 5000u, 20000u, 20001u, 65535u, 1u << 20, 0x7FFFFFFFu, 0xFFFFFFFFu})
        for (const std::uint32_t h : {0u, 1u, 48u, 5000u, 20000u, 65535u, 0x80000000u, 0xFFFFFFFFu}) {
            for (const int depth : {1, 8, 16})
                for (const int type : {0, 2, 3, 6}) {
                    ++c.claims;
                    taken(c, png_with(w, h, depth, type, {0, 1, 2, 3}), fmt::format("PNG of kind {}, {} bits, {} x {}", type, depth, w, h));
                }
            if (w > 65535 || h > 65535) continue;
            c.claims += 2;
            taken(c, claiming(photo, w, h), fmt::format("JPEG {} x {}", w, h));
            taken(c, claiming(passes, w, h), fmt::format("progressive JPEG {} x {}", w, h));
        }
    const Bytes bomb = tests::png_of_idat(4, 4, 8, 2, tests::endless_zeros(2'000'000));
    taken(c, bomb, "4 x 4 pixels that inflate to 320 MB");
    for (const char* other : {"GIF89a\1\0\1\0", "RIFF\1\0\0\0WEBPVP8 ", "BM\1\2\3\4", "II*\0\1\2\3\4", "%PDF-1.4\n", "\xFF\xD8", "\xFF\xD8\xFF", "\x89PNG\r\n\x1a\n"})
        taken(c, Bytes(other, other + std::char_traits<char>::length(other)), "another file");
}

/// The commands that open a picture: exit code 2 and one line under the smallest cap, or a cap that is none.
void try_program(Count& c) {
    const tests::ProgramRun tidemark;
    tidemark.put("deep.png", tests::png_of(6000, 6000, 16, 6, {0}));
    tidemark.put("wide.jpg", claiming(jpeg(64, 48, TJPF_RGB, TJSAMP_444, TJFLAG_PROGRESSIVE), 20000, 5000));
    tidemark.put("cut.jpg", [] { Bytes b = jpeg(64, 48, TJPF_RGB, TJSAMP_420); b.resize(b.size() / 2); return b; }());
    tidemark.put("bomb.png", tests::png_of_idat(4, 4, 8, 2, tests::endless_zeros(2'000'000)));
    tidemark.put("fine.png", png_with(64, 48, 8, 0, rows_of(48, 64)));
    for (const char* picture : {"deep.png", "wide.jpg", "cut.jpg", "bomb.png"}) {
        tidemark.put(std::string("mask-") + picture + ".toml", fmt::format("tidemark = 1\n[sheet]\nsize_mm = [40, 30]\npaper = \"rough-300\"\n[area.a]\nmask = \"{0}\"\n[[step]]\ndo = \"wet\"\n"
                                                                           "area = \"a\"\nwater_g_m2 = 100\n", picture));
        tidemark.put(std::string("order-") + picture + ".toml", fmt::format("tidemark = 1\n[sheet]\nsize_mm = [40, 30]\npaper = \"rough-300\"\n[[step]]\ndo = \"wash\"\nmix = \"water\"\n"
                                                                            "film_um = 100\norder = \"{0}\"\n[reference]\npicture = \"{0}\"\n", picture));
        for (const std::string& arguments : {fmt::format("squint {} --out o", picture), fmt::format("draft {} --out o", picture), fmt::format("transfer {} --sheet-mm 40x30 --out a.pdf", picture),
                                             fmt::format("check mask-{}.toml", picture), fmt::format("rehearse order-{}.toml --out o --cell 2", picture)}) {
            ++c.runs;
            const tests::Said said = tidemark("--version >/dev/null; TIDEMARK_PICTURE_MIB=" + std::to_string(cap_mib) + " TIDEMARK_PRESETS='" TIDEMARK_PRESETS_DIR "' '" TIDEMARK_PROGRAM "' " + arguments);
            const auto lines = std::count(said.err.begin(), said.err.end(), '\n');
            const bool two = arguments.starts_with("rehearse"); // order and reference
            if (said.code != 2 || lines != (two ? 2 : 1) || fs::exists(tidemark.path("o")) || fs::exists(tidemark.path("a.pdf")))
                c.wrong.push_back(fmt::format("{}: exit code {}, {}", arguments, said.code, said.err));
        }
    }
    for (const char* value : {"0", "15", "65537", "1e3", "nan", "99999999999999999999", " 64"}) {
        ++c.runs;
        const tests::Said said = tidemark(fmt::format("--version >/dev/null; TIDEMARK_PICTURE_MIB='{}' TIDEMARK_PRESETS='{}' '{}' squint fine.png --out o", value, TIDEMARK_PRESETS_DIR, TIDEMARK_PROGRAM));
        if (said.code != 2 || said.err.find("TIDEMARK_PICTURE_MIB") == std::string::npos) c.wrong.push_back(fmt::format("a cap of \"{}\": exit code {}, {}", value, said.code, said.err));
    }
}

} // namespace

int main() {
    Count c;
    setenv("TIDEMARK_PICTURE_MIB", std::to_string(cap_mib).c_str(), 1);
    const double before = resident_mib(RUSAGE_SELF);
    try_all(c);
    const double grown = resident_mib(RUSAGE_SELF) - before;
    try_program(c);
    const double children = resident_mib(RUSAGE_CHILDREN);
    // Beside what is decoded there are the file, at most 2 MB here, and what the libraries keep.
    if (grown > cap_mib + 16) c.wrong.push_back(fmt::format("reading took {:.0f} MiB under a cap of {}", grown, cap_mib));
    if (children > cap_mib + 64) c.wrong.push_back(fmt::format("the program took {:.0f} MiB under a cap of {}", children, cap_mib));
    if (c.kinds < 40 || c.cut < 5000 || c.read < 100) c.wrong.push_back("too little was tried");
    for (const std::string& line : c.wrong) fmt::print("{}\n", line);
    fmt::print("pictures: {} kinds, {} cut off, {} claimed sizes, {} runs of the program; under a cap of {} MiB {:.0f} more were taken, {:.0f} by the program; slowest {:.2f} s, {} wrong\n",
               c.kinds, c.cut, c.claims, c.runs, cap_mib, grown, children, c.slowest_s, c.wrong.size());
    return c.wrong.empty() ? 0 : 1;
}
