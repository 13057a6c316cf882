// State to bytes and back, and files that are not what they should be.
#include "grid/archive.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <omp.h>

#include "grid/problem.h"
#include "grid/tiles.h"
#include "support/temporary_folder.h"

using namespace tidemark;
using grid::ArchiveReader;
using grid::ArchiveWriter;
using grid::Field;

namespace {

constexpr grid::ArchiveKind kind{{'t', 'e', 's', 't'}, 3};
constexpr const char* wanted = "a test's file";

enum class Colour : std::uint8_t { red, blue };
struct Inner {
    double value = 0;
    std::vector<std::string> words;
    std::array<float, 3> three{};
};
struct All {
    bool yes = false;
    long many = 0;
    Colour colour = Colour::red;
    std::string text;
    std::vector<Inner> inners;
    Field<float> depth;
    Field<double> front;
    Field<std::uint8_t> mark;
    Field<std::int32_t> across;
    Field<float> none;
    grid::TileSet tiles;
    std::vector<float> numbers;
};

All something(int n) {
    All x;
    x.yes = true, x.many = -7, x.colour = Colour::blue, x.text = "Größe", x.depth.resize(n, n + 3);
    x.inners.push_back({.value = -0.0, .words = {"", "a\nb"}, .three = {1, std::nanf("7"), -1e-42f}});
    x.inners.push_back({.value = std::numeric_limits<double>::infinity(), .words = {}, .three = {}});
    x.front.resize(n, n), x.mark.resize(n, 1), x.across.resize(5, n);
    for (int j = -1; j <= n; ++j)
        for (int i = -1; i <= n; ++i) {
            x.depth(i, j) = i % 100 < 30 ? 0.0f : std::sin(static_cast<float>(i * j)) * 1e-4f;
            x.front(i, j) = i > j ? 0.15 : std::cos(0.3 * i - j);
        }
    for (int i = 0; i < n; ++i) x.mark(i, 0) = static_cast<std::uint8_t>(i / 70), x.across(i % 5, i) = -i;
    x.tiles = grid::TileSet(n, n);
    x.tiles.set(0, 0, true), x.tiles.rebuild();
    x.numbers = {0, -0.0f, 3};
    return x;
}

std::vector<std::uint8_t> bytes_of(const All& x) {
    ArchiveWriter a(kind);
    a(x);
    return a.bytes();
}

template <class Bytes> std::string what_it_says(const Bytes& bytes, const grid::ArchiveKind& as = kind) {
    const tests::TemporaryFolder folder;
    const auto file = folder.put("x", bytes);
    try {
        ArchiveReader in(as, file, wanted);
        All x;
        in(x);
        in.finish();
    } catch (const grid::BadInput& e) {
        REQUIRE(e.problems().size() == 1);
        return e.problems()[0].what + "; allowed: " + e.problems()[0].allowed;
    }
    return "";
}

template <class T> bool same(const Field<T>& a, const Field<T>& b) {
    if (a.nx() != b.nx() || a.ny() != b.ny()) return false;
    for (int j = -1; j <= a.ny(); ++j)
        if (!a.empty() && std::memcmp(a.row(j) - 1, b.row(j) - 1, sizeof(T) * (a.nx() + 2)) != 0) return false;
    return true;
}

} // namespace

TEST_CASE("what is archived comes back to the bit, ghosts, NaN and signed zeros too", "[law][grid]") {
    const All x = something(400);
    const tests::TemporaryFolder folder;
    ArchiveReader in(kind, folder.put("x", bytes_of(x)), wanted);
    All y;
    y.numbers = {5}, y.inners.resize(7), y.none.resize(3, 3); // what was there before goes
    in(y);
    in.finish();
    CHECK((y.yes && y.many == -7 && y.colour == Colour::blue && y.text == "Größe"));
    CHECK(same(x.depth, y.depth));
    CHECK(same(x.front, y.front));
    CHECK(same(x.mark, y.mark));
    CHECK(same(x.across, y.across));
    CHECK(y.none.empty());
    REQUIRE(y.inners.size() == 2);
    CHECK(std::memcmp(&x.inners[0].three, &y.inners[0].three, sizeof x.inners[0].three) == 0);
    CHECK((std::signbit(y.inners[0].value) && y.inners[0].words == x.inners[0].words && std::isinf(y.inners[1].value)));
    CHECK((y.tiles.same_as(x.tiles) && y.tiles.cells() == x.tiles.cells() && y.tiles.spans(3).size() == 1));
    CHECK((y.numbers == x.numbers && std::signbit(y.numbers[1])));
    CHECK(bytes_of(y) == bytes_of(x));
}

TEST_CASE("one thread and two archive the same bytes", "[law][grid]") {
    const All x = something(1200); // several pieces
    omp_set_num_threads(1);
    const auto one = bytes_of(x);
    omp_set_num_threads(2);
    CHECK((bytes_of(x) == one));
    CHECK(one.size() > (3u << 20));
}

TEST_CASE("an archive changed in any byte, cut or made longer is refused", "[wrong][grid]") {
    const auto whole = bytes_of(something(60));
    REQUIRE(what_it_says(whole).empty());
    const std::string damaged = std::string("is damaged or cut short; allowed: ") + wanted;
    const std::string strange = std::string("is something else; allowed: ") + wanted;
    const std::size_t step = std::max<std::size_t>(1, whole.size() / 400);
    for (std::size_t at = 0; at < whole.size(); at = at < 60 || at + 60 > whole.size() ? at + 1 : at + step) {
        INFO("byte " << at << " of " << whole.size());
        auto flipped = whole;
        flipped[at] ^= static_cast<std::uint8_t>(1 << at % 8);
        const std::string says = what_it_says(flipped);
        if (at < 12)
            CHECK(says == strange);
        else if (at < 16)
            CHECK_THAT(says, Catch::StartsWith("was written by a"));
        else
            CHECK(says == damaged);
        CHECK(what_it_says(std::vector(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(at))) ==
              (at < 8 ? strange : damaged));
    }
    auto longer = whole;
    longer.push_back(0);
    CHECK(what_it_says(longer) == damaged);
    CHECK(what_it_says(std::string("a letter about a sheet of paper")) == strange);
}

TEST_CASE("another version or another kind of archive is named", "[wrong][grid]") {
    const auto whole = bytes_of(something(40));
    CHECK(what_it_says(whole, {kind.letters, 2}) ==
          "was written by a newer tidemark (version 3 of such files); allowed: version 2");
    CHECK(what_it_says(whole, {kind.letters, 4}) ==
          "was written by an older tidemark (version 3 of such files); allowed: version 4");
    CHECK(what_it_says(whole, {{'s', 'e', 'e', 'd'}, 3}) == std::string("is something else; allowed: ") + wanted);
}

TEST_CASE("sizes that are not to be believed are refused before any memory is taken", "[wrong][grid]") {
    const std::string damaged = std::string("is damaged or cut short; allowed: ") + wanted;
    const auto read_as = [](auto&& value, auto written) {
        ArchiveWriter a(kind);
        written(a);
        const tests::TemporaryFolder folder;
        ArchiveReader in(kind, folder.put("x", a.bytes()), wanted);
        in(value);
    };
    const auto count = [](std::uint64_t n) { return [n](ArchiveWriter& a) { a(n); }; };
    CHECK_THROWS_AS(read_as(std::string(), count(1ull << 62)), grid::BadInput);
    CHECK_THROWS_AS(read_as(std::vector<float>(), count(1ull << 62)), grid::BadInput);
    CHECK_THROWS_AS(read_as(std::vector<Inner>(), count(1ull << 62)), grid::BadInput);
    for (const auto& [nx, ny] : {std::pair{1 << 30, 1 << 30}, {-5, -5}, {0, 5}, {2000, 2000}, {1, -3}})
        CHECK_THROWS_AS(read_as(Field<float>(), [nx = nx, ny = ny](ArchiveWriter& a) { a(nx, ny); }), grid::BadInput);
    const std::uint8_t two = 2;
    CHECK_THROWS_AS(read_as(false, [&](ArchiveWriter& a) { a(two); }), grid::BadInput);
    // A piece that says it is larger than pieces are.
    auto bytes = bytes_of(something(40));
    bytes[16 + 3] = 0x7f;
    CHECK(what_it_says(bytes) == damaged);
    bytes = bytes_of(something(40));
    bytes[20 + 3] = 0x7f;
    CHECK(what_it_says(bytes) == damaged);
}

TEST_CASE("each member of a plain struct is gone through once, in order", "[law][grid]") {
    Inner x{.value = 2, .words = {"b"}, .three = {}};
    std::string seen;
    grid::each_member(x, [&]<class T>(T& member) {
        if constexpr (std::is_same_v<T, double>) seen += fmt::format("{} ", member);
        if constexpr (std::is_same_v<T, std::vector<std::string>>) seen += member[0];
        if constexpr (std::is_same_v<T, std::array<float, 3>>) seen += " 3";
    });
    CHECK(seen == "2 b 3");
    CHECK(grid::member_count<All> == 12);
}
