// Numbers beyond what the formulas of the air are meant for are refused by name and range.
#include "air/evaporate.h"
#include "air/moist_air.h"
#include "support/refused.h"

using namespace tidemark;
using scene::said;
using scene::takes_only;

namespace {

const grid::Allowed share{0, 1};

materials::Room room_with(double materials::Room::*member, double value) {
    materials::Room room;
    room.*member = value;
    return room;
}

air::PlateSurface surface_with(double air::PlateSurface::*member, double value) {
    air::PlateSurface surface;
    surface.*member = value;
    return surface;
}

sheet::SheetState small_sheet() {
    return sheet::SheetState::make(8e-3, 8e-3, 0.5e-3, {}, {}, sheet::BoardKind::absorbent, {}, 1);
}

} // namespace

TEST_CASE("moist air is refused beyond its formulas", "[law][air]") {
    const grid::Allowed kelvin{213, 450, "K"};
    takes_only("T_K", kelvin, [](double T) { air::saturation_pressure_Pa(T); });
    takes_only("T_K", kelvin, [](double T) { air::vapour_density_kg_m3(T, 0.5); });
    takes_only("T_K", kelvin, [](double T) { air::latent_heat_J_kg(T); });
    takes_only("T_K", kelvin, [](double T) { air::vapour_diffusivity_m2_s(T); });
    takes_only("T_K", kelvin, [](double T) { air::air_properties(T); });
    takes_only("humidity", share, [](double a) { air::vapour_density_kg_m3(293.15, a); });
    takes_only("vapour_pressure_Pa", {0, 100, "kPa", 1e3}, [](double e) { air::humidity_ratio(e); });
    takes_only("T_K", {273.15, 353.15, "K"}, [](double T) { air::wet_bulb_K(T, 0.5); });
    takes_only("humidity", share, [](double a) { air::wet_bulb_K(293.15, a); });
}

TEST_CASE("a plate is refused in a room, of a size or with a surface out of range", "[law][air]") {
    using materials::Room;
    struct Of {
        const char* name;
        grid::Allowed allowed;
        double Room::*member;
    };
    const Of all[] = {{"room.temperature_K", {273.15, 353.15, "K"}, &Room::temperature_K},
                      {"room.humidity", share, &Room::humidity},
                      {"room.air_m_s", {0, 20, "m/s"}, &Room::air_m_s},
                      {"room.sun_W_m2", {0, 1200, "W/m²"}, &Room::sun_W_m2},
                      {"room.longwave_W_m2", {-200, 200, "W/m²"}, &Room::longwave_W_m2},
                      {"room.turbulence", {0.5, 3}, &Room::turbulence}};
    for (const Of& of : all) {
        takes_only(of.name, of.allowed, [&](double v) { air::plate_evaporation(room_with(of.member, v), 0.3); });
        takes_only(of.name, of.allowed, [&](double v) { air::plate_stress_Pa(room_with(of.member, v), 0.3); });
    }
    const grid::Allowed length{1, 10'000, "mm", 1e-3};
    takes_only("length_m", length, [](double m) { air::plate_evaporation({}, m); });
    takes_only("length_m", length, [](double m) { air::plate_stress_Pa({}, m); });
    using air::PlateSurface;
    const auto plate = [](const PlateSurface& surface) { air::plate_evaporation({}, 0.3, surface); };
    takes_only("activity", share, [&](double v) { plate(surface_with(&PlateSurface::activity, v)); });
    takes_only("sun_absorbed", share, [&](double v) { plate(surface_with(&PlateSurface::sun_absorbed, v)); });
    takes_only("emissivity", share, [&](double v) { plate(surface_with(&PlateSurface::emissivity, v)); });
    for (int faces = 0; faces <= 3; ++faces) {
        PlateSurface surface;
        surface.faces = faces;
        CHECK((said([&] { plate(surface); }) == "") == (faces == 1 || faces == 2));
    }
}

// The search for a surface's temperature must not leave the range of its own formulas.
TEST_CASE("every room that is allowed has a surface temperature", "[law][air]") {
    for (const double kelvin : {273.15, 298.15, 323.15, 353.15})
        for (const double humidity : {0.0, 0.01, 0.99, 1.0})
            for (const double wind_m_s : {0.0, 20.0})
                for (const double sun_W_m2 : {0.0, 1200.0})
                    for (const double sky_W_m2 : {-200.0, 200.0}) {
                        materials::Room room;
                        room.temperature_K = kelvin, room.humidity = humidity, room.air_m_s = wind_m_s;
                        room.sun_W_m2 = sun_W_m2, room.longwave_W_m2 = sky_W_m2;
                        CAPTURE(kelvin, humidity, wind_m_s, sun_W_m2, sky_W_m2);
                        CHECK(said([&] { air::plate_evaporation(room, 0.3); }) == "");
                    }
}

TEST_CASE("vapour is refused over cells and through layers out of range", "[law][air]") {
    auto sheet = small_sheet();
    air::SidewaysVapour vapour;
    takes_only("layer_m", {0.1, 1000, "mm", 1e-3}, [&](double m) { air::prepare(vapour, sheet.geometry, m); });
    takes_only("cell_m", {0.01, 100, "mm", 1e-3}, [&](double m) {
        auto g = sheet.geometry;
        g.cell_m = m;
        air::prepare(vapour, g, 5e-3);
    });
    air::prepare(vapour, sheet.geometry, 5e-3);
    takes_only("wet_front_kg_m2", {0, 10, "kg/m²"}, [&](double w) { air::update(vapour, sheet, w); });
    grid::Field<float> v(8, 8), s(8, 8);
    std::vector<float> change;
    takes_only("layer_m", {0.1, 10'000, "mm", 1e-3},
               [&](double m) { air::solve_screened(v, s, 1e-3, m, 1e-4f, change); });
    takes_only("cell_m", {0.01, 10'000, "mm", 1e-3},
               [&](double m) { air::solve_screened(v, s, m, 1e-2, 1e-4f, change); });
    CHECK(said([&] { air::solve_screened(v, s, 1e-3, 1e-2, -1e-4f, change); }) == "tolerance is -0.0001; allowed: 0 to 1");
}

TEST_CASE("drying is refused for a time or a board out of range", "[law][air]") {
    auto sheet = small_sheet();
    air::AirWorkspace work;
    air::advance(sheet, work, 1);
    takes_only("dt_s", {0, 1e6, "s"}, [&](double dt) { air::advance(sheet, work, dt); });
    takes_only("board_time_s", {1, 1e6, "s"}, [&](double t) {
        work.params.board_time_s = t;
        air::advance(sheet, work, 1);
    });
}
