// The multigrid against a direct solve of the same system, where it converges by itself and where it does not.
#include "water/multigrid.h"

#include <Eigen/Sparse>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace tidemark;

namespace {

constexpr int n = 96;
constexpr float G = 55, g = 9.7f; // of 1 mm cells

/// One step's system, n × n cells, with what the rows of the sheet would have given.
struct System {
    std::vector<float> cx = std::vector<float>(n * n), cy = cx, diagonal = cx, r1 = cx;
    static int at(int i, int j) { return j * n + i; }

    /// A film whose face coefficient is c(j) down the sheet; nothing passes its border.
    template <class F> static System of(F&& c) {
        System s;
        for (int j = 0; j < n; ++j)
            for (int i = 0; i < n; ++i) {
                s.cx[at(i, j)] = i + 1 < n ? c(j) : 0;
                s.cy[at(i, j)] = j + 1 < n ? std::sqrt(c(j) * c(j + 1)) : 0;
                s.diagonal[at(i, j)] = g + 4 * G;
                // Without a mean over the bead: water comes from somewhere.
                s.r1[at(i, j)] = 1e-3f * static_cast<float>(std::sin(0.9 * i) * std::cos(0.4 * j));
            }
        return s;
    }
    std::vector<float> solved(int cycles_max, double& residual, int& cycles) const {
        water::Multigrid grid(n, n, G);
        for (int j = 0; j < n; ++j)
            grid.take(j, {&cx[at(0, j)], &cy[at(0, j)], &diagonal[at(0, j)], &r1[at(0, j)]}, 0, n);
        grid.coarsen();
        residual = grid.solve(1e-7, cycles_max, cycles);
        std::vector<float> dp(n * n);
        for (int j = 0; j < n; ++j)
            grid.pressure_row(j, &dp[at(0, j)], 0, n);
        return dp;
    }
    /// (I + C A) de = r1 with C the difference over faces and A the pressure of a cell, factorised.
    Eigen::VectorXd direct() const {
        std::vector<Eigen::Triplet<double>> over, of;
        const auto face = [&](int a, int b, double c) {
            for (auto [p, q] : {std::pair{a, b}, std::pair{b, a}})
                over.emplace_back(p, p, c), over.emplace_back(p, q, -c);
        };
        for (int j = 0; j < n; ++j)
            for (int i = 0; i < n; ++i) {
                const int k = at(i, j);
                of.emplace_back(k, k, diagonal[k]);
                if (i + 1 < n)
                    face(k, k + 1, cx[k]), of.emplace_back(k, k + 1, -G), of.emplace_back(k + 1, k, -G);
                if (j + 1 < n)
                    face(k, k + n, cy[k]), of.emplace_back(k, k + n, -G), of.emplace_back(k + n, k, -G);
            }
        Eigen::SparseMatrix<double> C(n * n, n * n), A(n * n, n * n), one(n * n, n * n);
        C.setFromTriplets(over.begin(), over.end());
        A.setFromTriplets(of.begin(), of.end());
        one.setIdentity();
        const Eigen::SparseMatrix<double> whole = one + C * A;
        Eigen::SparseLU<Eigen::SparseMatrix<double>> lu(whole);
        Eigen::VectorXd given(n * n);
        for (int k = 0; k < n * n; ++k)
            given[k] = r1[k];
        return A * lu.solve(given);
    }
};

/// Largest difference of pressures that move water: over the largest pressure.
double apart(const std::vector<float>& dp, const Eigen::VectorXd& direct) {
    double most = 0, largest = 0;
    for (int k = 0; k < n * n; ++k)
        most = std::max(most, std::abs(dp[k] - direct[k])), largest = std::max(largest, std::abs(direct[k]));
    return most / largest;
}

} // namespace

TEST_CASE("the pressures of an even film are those of a direct solve", "[law][water]") {
    const System s = System::of([](int) { return 3.0f; });
    double residual = 0;
    int cycles = 0;
    const auto dp = s.solved(30, residual, cycles);
    CHECK(residual < 1e-7);
    CHECK(cycles <= 10);
    CHECK(apart(dp, s.direct()) < 1e-3);
}

TEST_CASE("a deep bead along a border, against thin film, is solved within thirty cycles", "[law][water]") {
    // As it stood at the lower edge of a wet sheet at 8 degrees: 0.6 mm deep, then 10 um.
    const std::vector<float> bead = {0.02f, 0.33f, 2, 7.3f, 15.8f, 29.8f, 52, 76.6f, 56.6f, 38, 11.7f};
    for (int step = 1; step <= 2; ++step) { // the whole bead, and one half as wide
        CAPTURE(step);
        const System s = System::of([&](int j) {
            const int up = (n - 1 - j) * step, size = static_cast<int>(bead.size());
            return up < size ? bead[size - 1 - up] : 2e-4f;
        });
        double residual = 0;
        int cycles = 0;
        const auto dp = s.solved(30, residual, cycles);
        CHECK(residual < 1e-7);
        CHECK(apart(dp, s.direct()) < 1e-3);
    }
}
