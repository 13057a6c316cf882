/// Three by three, and its inverse at compile time.
#pragma once
#include <array>

namespace tidemark::colour {

using Matrix = std::array<std::array<double, 3>, 3>;

constexpr Matrix inverse(const Matrix& m) {
    Matrix inv{};
    const auto minor = [&m](int r, int c) {
        const int r1 = (r + 1) % 3, r2 = (r + 2) % 3, c1 = (c + 1) % 3, c2 = (c + 2) % 3;
        return m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1];
    };
    const double det = m[0][0] * minor(0, 0) + m[0][1] * minor(0, 1) + m[0][2] * minor(0, 2);
    for (int r = 0; r < 3; ++r)
        for (int c = 0; c < 3; ++c) inv[r][c] = minor(c, r) / det;
    return inv;
}

} // namespace tidemark::colour
