#include "support/judge_scene.h"
#include <catch2/catch.hpp>
#include <fmt/core.h>
using namespace judge_scene;
namespace {
void grain(Scene& s, double sd_L, double sd_mm, unsigned seed) {
    // correlated noise
    std::mt19937 random(seed); std::normal_distribution<float> n01(0, 1);
    const int nx = s.geometry.nx, ny = s.geometry.ny; const double h = s.geometry.cell_m*1e3;
    grid::Field<float> a(nx, ny), b(nx, ny);
    for (int j = 0; j < ny; ++j) for (int i = 0; i < nx; ++i) a(i,j) = n01(random);
    const double sd = sd_mm / h; const int R = (int)std::ceil(3*sd);
    auto w=[&](int k){return std::exp(-0.5*k*k/(sd*sd));};
    double norm2=0, norm=0; for(int k=-R;k<=R;++k) norm+=w(k); for(int k=-R;k<=R;++k) norm2+=w(k)*w(k)/norm/norm;
    for (int pass=0; pass<2; ++pass) {
        for (int j = 0; j < ny; ++j) for (int i = 0; i < nx; ++i) { double v=0; for(int k=-R;k<=R;++k) v += w(k)/norm*(pass? a((i+k+nx)%nx,j):a(i,(j+k+ny)%ny)); b(i,j)=(float)v; }
        std::swap(a,b);
    }
    for (int j = 0; j < ny; ++j) for (int i = 0; i < nx; ++i) s.lstar(i,j) += (float)(sd_L / norm2 * a(i,j));
}
}
TEST_CASE("try widths", "[try]") {
    for (double cell : {0.25, 0.5, 1.0}) for (double w : {0.5, 1.0, 2.0, 3.0, 5.0, 10.0, 15.0, 20.0}) {
        std::string line = fmt::format("cell {} w {:4}: ", cell, w);
        for (int noise = 0; noise < 4; ++noise) {
            auto s = tilted_edge(17, [&](double d) { return blurred_step(d, w / 2.5631, 45, 90); }, 100, cell);
            if (noise) grain(s, noise == 3 ? 4 : 2, noise == 1 ? 0.3 : 0.8, 3 + noise);
            const auto e = s.edges().at(0);
            line += fmt::format(" | edge {:+5.1f}%", 100 * (e.width_mm / w - 1));
            for (auto& st : e.stretches) line += fmt::format(" {:+5.1f}% {} {:.0f}mm", 100 * (st.width_mm / w - 1), st.word[0], st.length_mm);
        }
        fmt::print("{}\n", line);
    }
}
