/// State written to a file and read back, to the bit: what is written and what is read is one function.
///
///   ArchiveWriter out(kind);                 ArchiveReader in(kind, file);
///   out(sheet, record);                      in(sheet, record);
///   out.bytes() -> file                      in.finish();
///
/// What it knows: numbers, enums, strings, paths, vectors, arrays, optionals, (written only) variants, Field, and plain
/// structs, member by member (members.h). A class writes `template <class A, class Self> static void archive(A& a, Self& self)`, a struct of which
/// not all is kept a free archive_of(a, self) in its namespace; both take their members with a structured binding, so
/// that a new one must be named there. `A::reads` tells which way it goes.
///
/// The file, all numbers little-endian:
///   8 bytes   89 'T' 'D' 'M' 0D 0A 1A 0A        (as PNG: a transfer that meddles with line ends is noticed)
///   4 + 4     kind, four letters; version of that kind, u32
///   pieces    u32 raw bytes (1 ... 1 MiB), u32 packed bytes, u32 CRC-32, then the packed bytes (zlib, RFC 1950). The CRC
///             (ISO/IEC 15948 annex D) is that of the file's first 16 bytes and the piece's number, u32, its two sizes,
///             its packed bytes: no piece can be missing, strange or in another's place
///   the end   a piece of 0 raw and 0 packed bytes
/// The raw bytes of all pieces together:
///   number    as it is in memory; bool and enums as their underlying type, bool 0 or 1; long as 8 bytes
///   string    u64 count, bytes          optional: u8, then its value
///   vector    u64 count, its elements; of numbers: count, then words
///   Field     i32 nx, ny (0, 0: none), then words, row by row, ghosts included: (nx + 2)(ny + 2)
///   words     of 65536 at a time: a bit for each 64 of them (1: some differ from the word before them, whose first is
///             0); then of those 64s the differences from word to word as zigzag integers (so that small ones either
///             way have zero bytes), all lowest bytes first, then all second bytes ...
/// Reading never allocates by a size that was not checked: pieces are at most 1 MiB, vectors grow as their elements come,
/// fields and vectors of numbers hold at most so many cells as the reader was told. Errors: BadInput, one line.
#pragma once
#include <array>
#include <bit>
#include <cstdint>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>
#include <type_traits>
#include <variant>
#include <vector>

#include "grid/field.h"
#include "grid/members.h"

static_assert(std::endian::native == std::endian::little, "archives are written as they lie in memory");

namespace tidemark::grid {

/// What kind of file it is: four letters, and the version of what is in it.
struct ArchiveKind {
    std::array<char, 4> letters{};
    std::uint32_t version = 0;
};

namespace archives {

template <class T> constexpr bool is_number = std::is_arithmetic_v<T> || std::is_enum_v<T>;
template <class T> struct IsVector : std::false_type {};
template <class T> struct IsVector<std::vector<T>> : std::true_type {};
template <class T> struct IsArray : std::false_type {};
template <class T, std::size_t n> struct IsArray<std::array<T, n>> : std::true_type {};
template <class T> struct IsOptional : std::false_type {};
template <class T> struct IsOptional<std::optional<T>> : std::true_type {};
template <class T> struct IsVariant : std::false_type {};
template <class... T> struct IsVariant<std::variant<T...>> : std::true_type {};
template <class T> struct IsField : std::false_type {};
template <class T> struct IsField<Field<T>> : std::true_type {};

/// What both ways have in common: how a thing is taken apart. D has a function for each kind.
template <class D> class Visits {
  public:
    template <class... T> void operator()(T&... x) { (one(x), ...); }

  private:
    template <class T> void one(T& x) {
        D& self = static_cast<D&>(*this);
        using Bare = std::remove_cv_t<T>;
        if constexpr (is_number<Bare>)
            self.number(x);
        else if constexpr (std::is_same_v<Bare, std::string>)
            self.string(x);
        else if constexpr (std::is_same_v<Bare, std::filesystem::path>)
            self.path(x);
        else if constexpr (IsVector<Bare>::value)
            self.vector(x);
        else if constexpr (IsOptional<Bare>::value)
            self.optional(x);
        else if constexpr (IsVariant<Bare>::value)
            self.variant(x);
        else if constexpr (IsField<Bare>::value)
            self.field(x);
        else if constexpr (IsArray<Bare>::value || std::is_array_v<T>)
            for (auto& each : x) one(each);
        else if constexpr (requires { Bare::archive(self, x); })
            Bare::archive(self, x);
        else if constexpr (requires { archive_of(self, x); })
            archive_of(self, x);
        else
            each_member(x, [&](auto& member) { one(member); });
    }
};

} // namespace archives

/// Takes things apart into bytes. D has put(const void*, bytes) and words(const unsigned integers*, count).
template <class D> class ArchivePuts : public archives::Visits<D> {
  public:
    static constexpr bool reads = false;
    template <class T> void number(const T& x) { self().put(&x, sizeof x); }
    void string(const std::string& x) { count(x.size()), self().put(x.data(), x.size()); }
    void path(const std::filesystem::path& x) { string(x.string()); }
    template <class T> void vector(const std::vector<T>& x) {
        count(x.size());
        if constexpr (archives::is_number<T> && !std::is_same_v<T, bool>)
            self().words(x.data(), 1, x.size(), 0);
        else
            for (const T& each : x) (*this)(each);
    }
    template <class T> void optional(const std::optional<T>& x) {
        number(x.has_value());
        if (x) (*this)(*x);
    }
    template <class... T> void variant(const std::variant<T...>& x) {
        count(x.index());
        std::visit(*this, x);
    }
    template <class T> void field(const Field<T>& x) {
        number(static_cast<std::int32_t>(x.nx())), number(static_cast<std::int32_t>(x.ny()));
        if (!x.empty()) self().words(x.row(-1) - 1, x.ny() + 2, x.nx() + 2, x.stride());
    }

  private:
    D& self() { return static_cast<D&>(*this); }
    void count(std::size_t n) { number(static_cast<std::uint64_t>(n)); }
};

/// Keeps what it is given as the bytes of a file, packed as they come.
class ArchiveWriter : public ArchivePuts<ArchiveWriter> {
  public:
    explicit ArchiveWriter(const ArchiveKind&);
    const std::vector<std::uint8_t>& bytes(); ///< ends it
    std::int64_t raw_bytes() const { return raw_bytes_; } ///< before packing
    void put(const void*, std::size_t);
    template <class T> void words(const T* first, std::size_t rows, std::size_t columns, std::ptrdiff_t stride);

  private:
    std::vector<std::uint8_t> file_, raw_;
    std::int64_t raw_bytes_ = 0;
    std::uint32_t pieces_ = 0;
    bool ended_ = false;
    void pack(std::size_t n);
    void add_piece(std::uint32_t raw, const std::vector<std::uint8_t>& packed);
};

/// CRC-32 and count of what is given: whether two things are the same.
class ArchiveDigest : public ArchivePuts<ArchiveDigest> {
  public:
    void put(const void*, std::size_t);
    template <class T> void words(const T* first, std::size_t rows, std::size_t columns, std::ptrdiff_t stride) {
        for (std::size_t j = 0; j < rows; ++j) put(first + static_cast<std::ptrdiff_t>(j) * stride, columns * sizeof(T));
    }
    bool same_as(const ArchiveDigest& other) const { return crc_ == other.crc_ && bytes_ == other.bytes_; }
    template <class A, class Self> static void archive(A& a, Self& self) {
        auto& [crc, count] = self;
        a(crc, count);
    }

  private:
    std::uint32_t crc_ = 0;
    std::uint64_t bytes_ = 0;
};

class ArchiveReader : public archives::Visits<ArchiveReader> {
  public:
    static constexpr bool reads = true;
    /// `wanted`: what such a file is, for a message: "a kept moment of a rehearsal".
    ArchiveReader(const ArchiveKind&, const std::filesystem::path&, std::string wanted);
    void most_cells(std::int64_t n) { most_cells_ = n; } ///< of a field or a vector of numbers; 1 Mi at first
    void finish();                                       ///< there must be no more
    /// For what the bytes say but can't be.
    void require(bool fine) const {
        if (!fine) damaged();
    }

    template <class T> void number(T& x) {
        if constexpr (std::is_same_v<T, bool>) {
            std::uint8_t byte = 0;
            get(&byte, 1);
            require(byte <= 1);
            x = byte == 1;
        } else {
            get(&x, sizeof x);
        }
    }
    void string(std::string& x);
    void path(std::filesystem::path& x) {
        std::string text;
        string(text);
        x = text;
    }
    template <class T> void vector(std::vector<T>& x) {
        std::uint64_t n = 0;
        number(n);
        x.clear();
        if constexpr (archives::is_number<T> && !std::is_same_v<T, bool>) {
            require(n <= static_cast<std::uint64_t>(most_cells_));
            x.resize(static_cast<std::size_t>(n));
            words(x.data(), 1, x.size(), 0);
        } else {
            for (std::uint64_t k = 0; k < n; ++k) (*this)(x.emplace_back());
        }
    }
    template <class T> void optional(std::optional<T>& x) {
        bool there = false;
        number(there);
        if (there)
            (*this)(x.emplace());
        else
            x.reset();
    }
    template <class T> void field(Field<T>& x) {
        std::int32_t nx = 0, ny = 0;
        number(nx), number(ny);
        if (nx == 0 && ny == 0) return void(x = Field<T>());
        require(nx > 0 && ny > 0 && (nx + 2ll) * (ny + 2ll) <= most_cells_);
        if (x.nx() != nx || x.ny() != ny) x.resize(nx, ny);
        words(x.row(-1) - 1, ny + 2, nx + 2, x.stride());
    }

  private:
    std::string shown_, wanted_;
    std::ifstream in_;
    std::array<std::uint8_t, 16> head_{};
    std::vector<std::uint8_t> raw_, packed_;
    std::size_t next_ = 0; ///< in raw_
    std::uint32_t pieces_ = 0;
    std::int64_t most_cells_ = 1 << 20;
    [[noreturn]] void damaged() const;
    bool next_piece();
    void read(void*, std::size_t);
    void get(void*, std::size_t);
    template <class T> void words(T* first, std::size_t rows, std::size_t columns, std::ptrdiff_t stride);
};

} // namespace tidemark::grid
