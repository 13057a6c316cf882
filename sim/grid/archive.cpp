#include "grid/archive.h"

#include <fmt/format.h>
#include <zlib.h>

#include <algorithm>
#include <cerrno>

#include "grid/problem.h"
#include "grid/words_detail.h"

namespace tidemark::grid {
namespace {

constexpr std::uint32_t piece_bytes = 1 << 20, packed_most = piece_bytes + piece_bytes / 64;
constexpr std::size_t pieces_at_a_time = 16;
constexpr std::uint8_t signature[8] = {0x89, 'T', 'D', 'M', 0x0D, 0x0A, 0x1A, 0x0A};
constexpr std::size_t head_bytes = 16;

std::uint32_t crc(std::uint32_t before, const void* bytes, std::size_t n) {
    return n == 0 ? before : static_cast<std::uint32_t>(crc32_z(before, static_cast<const Bytef*>(bytes), n));
}

std::uint32_t piece_crc(const std::uint8_t* head, std::uint32_t number, std::uint32_t raw, std::uint32_t packed,
                        const std::uint8_t* bytes) {
    const std::uint32_t what[3] = {number, raw, packed};
    return crc(crc(crc(0, head, head_bytes), what, sizeof what), bytes, packed);
}

/// Whether packing is likely to gain less than a tenth: by the chance that two bytes of a sample are alike, which
/// is 1/256 for noise.
bool is_noise(const std::uint8_t* bytes, std::size_t n) {
    std::uint32_t count[256] = {}, sampled = 0;
    for (std::size_t k = 0; k < n; k += 4) ++count[bytes[k]], ++sampled;
    std::uint64_t alike = 0;
    for (const std::uint64_t c : count) alike += c * (c - 1);
    return static_cast<double>(alike) * 256 < 2 * static_cast<double>(sampled) * (sampled - 1);
}

/// Runs and rare bytes are all there is to gain (words_detail.h): a wet quarter sheet of 61 MB packs to 38 in 0.56 s, in
/// 0.95 s to 39 when longer likenesses are looked for. Noise, a third of the bytes, is stored as it is (bench/kept).
std::vector<std::uint8_t> packed(const std::uint8_t* raw, std::uint32_t n) {
    constexpr std::uint32_t part = 1 << 14;
    z_stream z{};
    if (deflateInit2(&z, 1, Z_DEFLATED, 15, 9, Z_RLE) != Z_OK) throw std::bad_alloc();
    std::vector<std::uint8_t> out(packed_most); // noise grows by some bytes a part
    z.next_out = out.data(), z.avail_out = static_cast<uInt>(out.size());
    int level = 1, done = Z_OK;
    for (std::uint32_t at = 0; at < n; at += part) {
        const std::uint32_t size = std::min(part, n - at);
        const int wanted = is_noise(raw + at, size) ? 0 : 1;
        if (wanted != level) deflateParams(&z, level = wanted, Z_RLE);
        z.next_in = const_cast<Bytef*>(raw + at), z.avail_in = size;
        done = deflate(&z, at + size < n ? Z_NO_FLUSH : Z_FINISH);
    }
    out.resize(z.total_out);
    deflateEnd(&z);
    if (done != Z_STREAM_END) throw InternalError("a piece of an archive can't be packed");
    return out;
}

} // namespace

ArchiveWriter::ArchiveWriter(const ArchiveKind& kind) {
    file_.resize(head_bytes);
    std::memcpy(file_.data(), signature, sizeof signature);
    std::memcpy(file_.data() + 8, kind.letters.data(), kind.letters.size());
    std::memcpy(file_.data() + 12, &kind.version, sizeof kind.version);
}

void ArchiveWriter::put(const void* bytes, std::size_t n) {
    const auto* from = static_cast<const std::uint8_t*>(bytes);
    raw_.insert(raw_.end(), from, from + n);
    if (raw_.size() >= pieces_at_a_time * piece_bytes) pack(pieces_at_a_time * piece_bytes);
}

template <class T> void ArchiveWriter::words(const T* first, std::size_t rows, std::size_t columns, std::ptrdiff_t stride) {
    using U = Word<sizeof(T)>;
    std::vector<U> buffer(std::min(words_at_a_time, rows * columns)), steps;
    each_stretch(rows, columns, [&](std::size_t at, std::size_t n) {
        each_row_piece(at, n, columns, [&](std::size_t row, std::size_t column, std::size_t piece, std::size_t to) {
            std::memcpy(buffer.data() + to, first + static_cast<std::ptrdiff_t>(row) * stride + column, piece * sizeof(T));
        });
        put_words(buffer.data(), n, steps, raw_);
        if (raw_.size() >= pieces_at_a_time * piece_bytes) pack(pieces_at_a_time * piece_bytes);
    });
}

/// Packs the first `n` raw bytes, piece by piece: the bytes don't depend on how many threads share them out.
void ArchiveWriter::pack(std::size_t n) {
    const int pieces = static_cast<int>((n + piece_bytes - 1) / piece_bytes);
    const auto size_of = [&](int k) {
        return static_cast<std::uint32_t>(std::min<std::size_t>(piece_bytes, n - static_cast<std::size_t>(k) * piece_bytes));
    };
    std::vector<std::vector<std::uint8_t>> all(pieces);
#pragma omp parallel for schedule(dynamic) if (pieces > 1)
    for (int k = 0; k < pieces; ++k) all[k] = packed(raw_.data() + static_cast<std::size_t>(k) * piece_bytes, size_of(k));
    for (int k = 0; k < pieces; ++k) add_piece(size_of(k), all[k]);
    raw_.erase(raw_.begin(), raw_.begin() + static_cast<std::ptrdiff_t>(n));
    raw_bytes_ += static_cast<std::int64_t>(n);
}

void ArchiveWriter::add_piece(std::uint32_t raw, const std::vector<std::uint8_t>& bytes) {
    const auto size = static_cast<std::uint32_t>(bytes.size());
    const std::uint32_t head[3] = {raw, size, piece_crc(file_.data(), pieces_++, raw, size, bytes.data())};
    const auto* from = reinterpret_cast<const std::uint8_t*>(head);
    file_.insert(file_.end(), from, from + sizeof head);
    file_.insert(file_.end(), bytes.begin(), bytes.end());
}

const std::vector<std::uint8_t>& ArchiveWriter::bytes() {
    if (!ended_) {
        pack(raw_.size());
        add_piece(0, {});
        ended_ = true;
    }
    return file_;
}

void ArchiveDigest::put(const void* bytes, std::size_t n) {
    crc_ = crc(crc_, bytes, n);
    bytes_ += n;
}

ArchiveReader::ArchiveReader(const ArchiveKind& kind, const std::filesystem::path& file, std::string wanted)
    : shown_(file.string()), wanted_(std::move(wanted)) {
    std::error_code error;
    const auto status = std::filesystem::status(file, error);
    if (status.type() == std::filesystem::file_type::not_found) throw BadInput(shown_, "no such file");
    if (status.type() == std::filesystem::file_type::directory) throw BadInput(shown_, "is a folder", wanted_);
    in_.open(file, std::ios::binary);
    if (!in_) throw BadInput(shown_, fmt::format("can't be read: {}", std::strerror(errno)));
    in_.read(reinterpret_cast<char*>(head_.data()), head_bytes);
    const auto got = static_cast<std::size_t>(in_.gcount());
    if (got < sizeof signature || !std::equal(signature, signature + sizeof signature, head_.begin()))
        throw BadInput(shown_, "is something else", wanted_);
    if (got < head_bytes) damaged();
    if (!std::equal(kind.letters.begin(), kind.letters.end(), head_.begin() + sizeof signature))
        throw BadInput(shown_, "is something else", wanted_);
    std::uint32_t version = 0;
    std::memcpy(&version, head_.data() + 12, sizeof version);
    if (version != kind.version)
        throw BadInput(shown_, fmt::format("was written by {} tidemark (version {} of such files)",
                                           version > kind.version ? "a newer" : "an older", version),
                       fmt::format("version {}", kind.version));
}

void ArchiveReader::damaged() const { throw BadInput(shown_, "is damaged or cut short", wanted_); }

void ArchiveReader::read(void* to, std::size_t n) {
    in_.read(static_cast<char*>(to), static_cast<std::streamsize>(n));
    require(static_cast<std::size_t>(in_.gcount()) == n);
}

/// Returns whether there was one.
bool ArchiveReader::next_piece() {
    std::uint32_t head[3];
    read(head, sizeof head);
    const auto [raw, size, sum] = head;
    require(raw <= piece_bytes && size <= packed_most && (raw > 0) == (size > 0));
    packed_.resize(size);
    read(packed_.data(), size);
    require(piece_crc(head_.data(), pieces_++, raw, size, packed_.data()) == sum);
    raw_.resize(raw), next_ = 0;
    if (raw == 0) return false;
    uLongf got = raw;
    uLong used = size;
    require(uncompress2(raw_.data(), &got, packed_.data(), &used) == Z_OK && got == raw && used == size);
    return true;
}

void ArchiveReader::get(void* to, std::size_t n) {
    auto* out = static_cast<std::uint8_t*>(to);
    while (n > 0) {
        if (next_ == raw_.size()) require(next_piece());
        const std::size_t piece = std::min(n, raw_.size() - next_);
        std::memcpy(out, raw_.data() + next_, piece);
        out += piece, n -= piece, next_ += piece;
    }
}

void ArchiveReader::string(std::string& x) {
    constexpr std::uint64_t longest = 1 << 16;
    std::uint64_t n = 0;
    number(n);
    require(n <= longest);
    x.resize(static_cast<std::size_t>(n));
    get(x.data(), x.size());
}

template <class T> void ArchiveReader::words(T* first, std::size_t rows, std::size_t columns, std::ptrdiff_t stride) {
    using U = Word<sizeof(T)>;
    std::vector<U> buffer(std::min(words_at_a_time, rows * columns));
    std::vector<std::uint8_t> flags, bytes;
    each_stretch(rows, columns, [&](std::size_t at, std::size_t n) {
        flags.resize(flag_bytes(n));
        get(flags.data(), flags.size());
        const std::size_t flagged = words_flagged(flags.data(), n);
        bytes.resize(flagged * sizeof(U));
        get(bytes.data(), bytes.size());
        take_words(flags.data(), bytes.data(), flagged, buffer.data(), n);
        each_row_piece(at, n, columns, [&](std::size_t row, std::size_t column, std::size_t piece, std::size_t from) {
            std::memcpy(first + static_cast<std::ptrdiff_t>(row) * stride + column, buffer.data() + from, piece * sizeof(T));
        });
    });
}

void ArchiveReader::finish() {
    require(next_ == raw_.size() && !next_piece());
    require(in_.peek() == std::ifstream::traits_type::eof());
}

#define TIDEMARK_WORDS(T)                                                                                              \
    template void ArchiveWriter::words(const T*, std::size_t, std::size_t, std::ptrdiff_t);                            \
    template void ArchiveReader::words(T*, std::size_t, std::size_t, std::ptrdiff_t);
TIDEMARK_WORDS(std::uint8_t)
TIDEMARK_WORDS(std::uint16_t)
TIDEMARK_WORDS(std::int32_t)
TIDEMARK_WORDS(float)
TIDEMARK_WORDS(double)
#undef TIDEMARK_WORDS

} // namespace tidemark::grid
