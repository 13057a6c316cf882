// Grains, temperatures and times beyond what the formulas are meant for are refused by name and range.
#include "pigment/advance.h"
#include "pigment/grain.h"
#include "support/pigment_scene.h"
#include "support/refused.h"

using namespace tidemark;
using materials::Pigment;
using pigment_scene::flooded;
using pigment_scene::grain;
using scene::takes_only;

namespace {

const grid::Allowed size{1e-3, 1000, "µm", 1e-6}, density{500, 20'000, "kg/m³"};
constexpr double room_K = 293.15;

Pigment with(double Pigment::*member, double value) {
    Pigment p = grain(2340, 1e-6);
    p.*member = value;
    return p;
}

} // namespace

TEST_CASE("water and grains are refused beyond their formulas", "[law][pigment]") {
    takes_only("temperature_K", {273.15, 423.15, "K"}, [](double T) { pigment::water_density_kg_m3(T); });
    takes_only("temperature_K", {253.15, 383.15, "K"}, [](double T) { pigment::water_viscosity_Pa_s(T); });
    takes_only("temperature_K", {253.15, 383.15, "K"}, [](double T) { pigment::diffusivity_m2_s(1e-6, T); });
    takes_only("diameter_m", size, [](double d) { pigment::diffusivity_m2_s(d, room_K); });
    takes_only("diameter_m", size, [](double d) { pigment::stokes_velocity_m_s(2340, d, room_K); });
    takes_only("density_kg_m3", density, [](double rho) { pigment::stokes_velocity_m_s(rho, 1e-6, room_K); });
}

TEST_CASE("a pigment's numbers are refused beyond their range", "[law][pigment]") {
    struct Of {
        const char* name;
        grid::Allowed allowed;
        double Pigment::*member;
    };
    const Of all[] = {{"pigment.density_kg_m3", density, &Pigment::density_kg_m3},
                      {"pigment.d50_m", size, &Pigment::d50_m},
                      {"pigment.gsd", {1, 5}, &Pigment::gsd},
                      {"pigment.staining", {0, 1}, &Pigment::staining},
                      {"pigment.flocculation", {0, 1}, &Pigment::flocculation}};
    for (const Of& of : all) {
        takes_only(of.name, of.allowed, [&](double v) { pigment::grain_motion(with(of.member, v), room_K); });
        takes_only(of.name, of.allowed, [&](double v) {
            auto s = flooded(32, 32, 1e-4f, {with(of.member, v)});
            pigment::PigmentWorkspace work;
            pigment::advance(s, work, 0.1);
        });
    }
}

TEST_CASE("settling and drift are refused for a time out of range, settling for a room too", "[law][pigment]") {
    auto s = flooded(32, 32, 1e-4f, {grain(2340, 1e-6)});
    pigment::PigmentWorkspace work;
    takes_only("dt_s", {0, 1e6, "s"}, [&](double dt) { pigment::advance(s, work, dt); });
    takes_only("dt_s", {0, 1e6, "s"}, [&](double dt) { pigment::advect(s, work, dt); });
    const auto at = [&](double temperature_K) {
        s.room.temperature_K = temperature_K;
        return scene::said([&] { pigment::advance(s, work, 0.1); });
    };
    CHECK(at(273.15) == "");
    CHECK(at(383.15) == "");
    CHECK(at(273) == "temperature_K is 273 K; allowed: 273.15 to 423.15 K");  // where water's density ends
    CHECK(at(384) == "temperature_K is 384 K; allowed: 253.15 to 383.15 K");  // where its viscosity does
    CHECK(at(std::nan("")) != "");
}
