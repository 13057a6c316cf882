/// Numbers of a field as bytes that pack well and fast (archive.h says how they lie). Private to the room.
#pragma once
#include <algorithm>
#include <bit>
#include <cstdint>
#include <cstring>
#include <type_traits>
#include <vector>

namespace tidemark::grid {

constexpr std::size_t words_at_a_time = 65536, words_a_flag = 64;

template <std::size_t bytes>
using Word = std::conditional_t<bytes == 1, std::uint8_t,
                                std::conditional_t<bytes == 2, std::uint16_t,
                                                   std::conditional_t<bytes == 4, std::uint32_t, std::uint64_t>>>;

template <class U> U zigzag(U step) { // 0, -1, 1, -2 ... to 0, 1, 2, 3 ...
    constexpr int top = 8 * sizeof(U) - 1;
    return static_cast<U>(static_cast<U>(step << 1) ^ static_cast<U>(0 - static_cast<U>(step >> top)));
}
template <class U> U unzigzag(U z) { return static_cast<U>(static_cast<U>(z >> 1) ^ static_cast<U>(0 - static_cast<U>(z & 1))); }

inline std::size_t flag_bytes(std::size_t words) {
    return ((words + words_a_flag - 1) / words_a_flag + 7) / 8;
}

/// Appends `n` words, at most words_at_a_time, to `out`. `steps` is scratch.
template <class U> void put_words(const U* words, std::size_t n, std::vector<U>& steps, std::vector<std::uint8_t>& out) {
    const std::size_t flags = out.size();
    out.resize(flags + flag_bytes(n));
    steps.clear();
    U before = 0;
    for (std::size_t begin = 0; begin < n; begin += words_a_flag) {
        const std::size_t end = std::min(begin + words_a_flag, n);
        U differs = 0;
        for (std::size_t k = begin; k < end; ++k) differs |= static_cast<U>(words[k] ^ before);
        if (differs == 0) continue;
        const std::size_t flag = begin / words_a_flag, had = steps.size();
        out[flags + flag / 8] |= static_cast<std::uint8_t>(1 << flag % 8);
        steps.resize(had + end - begin);
        steps[had] = zigzag(static_cast<U>(words[begin] - before));
        for (std::size_t k = begin + 1; k < end; ++k)
            steps[had + k - begin] = zigzag(static_cast<U>(words[k] - words[k - 1]));
        before = words[end - 1];
    }
    for (std::size_t byte = 0; byte < sizeof(U); ++byte) {
        const std::size_t at = out.size();
        out.resize(at + steps.size());
        for (std::size_t k = 0; k < steps.size(); ++k) out[at + k] = static_cast<std::uint8_t>(steps[k] >> (8 * byte));
    }
}

/// How many of `n` words stand in the file, by their flags.
inline std::size_t words_flagged(const std::uint8_t* flags, std::size_t n) {
    std::size_t count = 0;
    for (std::size_t begin = 0; begin < n; begin += words_a_flag) {
        const std::size_t flag = begin / words_a_flag;
        if (flags[flag / 8] >> flag % 8 & 1) count += std::min(words_a_flag, n - begin);
    }
    return count;
}

/// The words again. `bytes`: as many as words_flagged() says, each lowest byte first, then each second byte ...
template <class U> void take_words(const std::uint8_t* flags, const std::uint8_t* bytes, std::size_t flagged, U* words, std::size_t n) {
    U before = 0;
    std::size_t next = 0;
    for (std::size_t k = 0; k < n; ++k) {
        const std::size_t flag = k / words_a_flag;
        if (flags[flag / 8] >> flag % 8 & 1) {
            U z = 0;
            for (std::size_t byte = 0; byte < sizeof(U); ++byte)
                z = static_cast<U>(z | static_cast<U>(bytes[byte * flagged + next]) << (8 * byte));
            before = static_cast<U>(before + unzigzag(z)), ++next;
        }
        words[k] = before;
    }
}

/// f(words, n) for stretches of at most words_at_a_time words of rows, in order, through a buffer.
template <class F> void each_stretch(std::size_t rows, std::size_t columns, F&& f) {
    for (std::size_t at = 0, all = rows * columns; at < all; at += words_at_a_time)
        f(at, std::min(words_at_a_time, all - at));
}

/// copy(row, column, n, offset): the cells from number `at` on, as pieces of rows.
template <class F> void each_row_piece(std::size_t at, std::size_t n, std::size_t columns, F&& copy) {
    for (std::size_t done = 0; done < n;) {
        const std::size_t row = (at + done) / columns, column = (at + done) % columns;
        const std::size_t piece = std::min(columns - column, n - done);
        copy(row, column, piece, done);
        done += piece;
    }
}

} // namespace tidemark::grid
