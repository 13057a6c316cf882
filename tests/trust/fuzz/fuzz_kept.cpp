// A kept moment. An input is what such a file holds when unpacked, or (its first byte odd) the file itself: so that neither
// the packing nor the checksums stand between a change and what reads it.
//
// TIDEMARK_FUZZ_SEEDS=FOLDER: writes its own seeds there, moments of a small sheet, and ends.
#include <zlib.h>

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <fstream>

#include "fuzz/memory_file.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "plan/read_plan.h"
#include "rehearsal/kept.h"
#include "sheet/look.h"

using namespace tidemark;

namespace {

constexpr std::uint32_t piece = 1 << 20;
constexpr std::size_t head = 16;

constexpr const char* small_plan = R"(tidemark = 1
[sheet]
size_mm = [32, 30]
paper = "rough-300"
tilt_deg = 4
[mix.blue]
PB29 = 2
[area.left]
rectangle_mm = [2, 2, 14, 26]
[[step]]
do = "wet"
water_g_m2 = 120
[[step]]
do = "wash"
area = "left"
mix = "blue"
film_um = 120
brush = "round-6"
[[step]]
do = "dry"
until = "damp"
warm_air = true
blows_deg = 20
[[step]]
do = "wash"
mix = "blue"
film_um = 60
)";

plan::Plan small() {
    static const auto presets = materials::Presets::read(grid::presets_folder());
    return plan::read_plan_text(small_plan, "plan.toml", presets);
}

using Raw = std::vector<std::uint8_t>;

template <class T> void put(Raw& out, T x) {
    const auto* from = reinterpret_cast<const std::uint8_t*>(&x);
    out.insert(out.end(), from, from + sizeof x);
}

std::uint32_t crc(std::uint32_t before, const void* bytes, std::size_t n) {
    return n == 0 ? before : static_cast<std::uint32_t>(crc32(before, static_cast<const Bytef*>(bytes), static_cast<uInt>(n)));
}

void put_piece(Raw& file, std::uint32_t number, const std::uint8_t* raw, std::uint32_t n) {
    Raw packed;
    if (n > 0) {
        uLongf size = compressBound(n);
        packed.resize(size);
        compress2(packed.data(), &size, raw, n, 1);
        packed.resize(size);
    }
    const std::uint32_t what[3] = {number, n, static_cast<std::uint32_t>(packed.size())};
    put(file, n), put(file, what[2]);
    put(file, crc(crc(crc(0, file.data(), head), what, sizeof what), packed.data(), packed.size()));
    file.insert(file.end(), packed.begin(), packed.end());
}

/// As grid/archive.h lays it down.
Raw packed(const std::uint8_t* raw, std::size_t n) {
    static constexpr std::uint8_t signature[8] = {0x89, 'T', 'D', 'M', 0x0D, 0x0A, 0x1A, 0x0A};
    Raw file(std::begin(signature), std::end(signature));
    for (const char c : rehearsal::kept_kind.letters) file.push_back(static_cast<std::uint8_t>(c));
    put(file, rehearsal::kept_kind.version);
    std::uint32_t number = 0;
    for (std::size_t at = 0; at < n; at += piece) put_piece(file, number++, raw + at, static_cast<std::uint32_t>(std::min<std::size_t>(piece, n - at)));
    put_piece(file, number, nullptr, 0);
    return file;
}

Raw unpacked(const Raw& file) {
    Raw raw;
    for (std::size_t at = head;;) {
        std::uint32_t what[3];
        std::memcpy(what, file.data() + at, sizeof what);
        if (what[0] == 0) return raw;
        at += sizeof what;
        uLongf size = what[0];
        raw.resize(raw.size() + size);
        uncompress(raw.data() + raw.size() - size, &size, file.data() + at, what[1]);
        at += what[1];
    }
}

void write_seeds(const std::filesystem::path& folder) {
    rehearsal::Rehearsal run(small(), {.cell_m = 4e-3});
    int n = 0;
    for (const double at_s : {0.0, 2.0, 30.0, 400.0, 3000.0}) {
        while (run.time_s() < at_s && run.step()) {}
        const Raw file = rehearsal::kept_bytes(run, "plan.toml"), raw = unpacked(file);
        std::filesystem::create_directories(folder);
        for (const bool whole : {false, true}) {
            const Raw& bytes = whole ? file : raw;
            std::ofstream out(folder / ("moment-" + std::to_string(++n)), std::ios::binary);
            out.put(whole ? 1 : 0);
            out.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
        }
    }
}

} // namespace

extern "C" int LLVMFuzzerInitialize(int*, char***) {
    if (const char* folder = std::getenv("TIDEMARK_FUZZ_SEEDS")) write_seeds(folder), std::exit(0);
    return 0;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t n) {
    static const plan::Plan plan = small();
    static const trust::MemoryFile held;
    if (n < 1) return 0;
    if (bytes[0] & 1) {
        held.hold(bytes + 1, n - 1);
    } else {
        const Raw file = packed(bytes + 1, n - 1);
        held.hold(file.data(), file.size());
    }
    try {
        rehearsal::KeptMoment moment(held.path());
        rehearsal::Rehearsal run = moment.go_on(plan, moment.time_s() + 60);
        sheet::look(run.sheet(), sheet::LookAs::as_now);
        sheet::look(run.sheet(), sheet::LookAs::dried);
        for (int k = 0; k < 2 && run.step(); ++k) {}
    } catch (const grid::BadInput& bad) {
        if (bad.problems().empty()) std::abort();
    } catch (const grid::InternalError&) { // a state that no run can be in: the ledger does not close, the film is not solved
    } catch (const std::invalid_argument&) { // grid/within.h
    }
    return 0;
}
