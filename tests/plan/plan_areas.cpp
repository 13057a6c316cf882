// Areas without a picture: shapes and sets are read in SI, and by name wherever an area is named.
#include "plan/plan_folder.h"
#include "plan/coverage.h"
#include "plan/schedule.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using Catch::Detail::Approx;

namespace {

/// A plan with these areas, the sheet 380 × 280 mm.
std::string plan_with(const std::string& areas,
                      const std::string& steps = "[[step]]\ndo = \"wet\"\nwater_g_m2 = 100\n") {
    return "tidemark = 1\n[sheet]\nsize_mm = [380, 280]\npaper = \"cold-pressed-300\"\n" + areas + steps;
}

template <class T> const T& form(const plan::Plan& p, const std::string& name) {
    return std::get<T>(p.areas.at(p.area_index(name)).form);
}

} // namespace

TEST_CASE("shapes are read in SI", "[plan]") {
    const PlanFolder folder;
    const plan::Plan p = folder.read(plan_with("[area.barn]\nrectangle_mm = [10, 20, 30.5, 40]\n"
                                               "[area.sun]\nellipse_mm = [100, 80, 40, 30]\nsoft_mm = 3\n"
                                               "[area.hill]\npolygon_mm = [[-5, 280], [380, 300], [190, 100.5]]\n"
                                               "[area.path]\nline_mm = [[10, 10], [20, 30]]\nwidth_mm = 4\n"));
    const auto& barn = form<plan::Rectangle>(p, "barn");
    CHECK(barn.x_m == Approx(0.010));
    CHECK(barn.y_m == Approx(0.020));
    CHECK(barn.width_m == Approx(0.0305));
    CHECK(barn.height_m == Approx(0.040));
    CHECK(p.areas[0].soft_m == 0);
    CHECK(form<plan::Ellipse>(p, "sun").x_m == Approx(0.1));
    CHECK(form<plan::Ellipse>(p, "sun").height_m == Approx(0.03));
    CHECK(p.areas[1].soft_m == Approx(0.003));
    REQUIRE(form<plan::Polygon>(p, "hill").corners.size() == 3);
    CHECK(form<plan::Polygon>(p, "hill").corners[0].x_m == Approx(-0.005));
    CHECK(form<plan::Polygon>(p, "hill").corners[2].y_m == Approx(0.1005));
    REQUIRE(form<plan::Line>(p, "path").points.size() == 2);
    CHECK(form<plan::Line>(p, "path").width_m == Approx(0.004));
    CHECK(p.areas[0].file.empty());
}

TEST_CASE("sets name areas of any kind, also later ones, a step's mask and the sheet", "[plan]") {
    const PlanFolder folder;
    const plan::Plan p = folder.read(plan_with("[area.land]\nminus = [\"sheet\", \"sky\", \"sun\"]\n"
                                               "[area.sun]\nellipse_mm = [190, 140, 40, 40]\n"
                                               "[area.low-sun]\nand = [\"sun\", \"hills\"]\n"
                                               "[area.lights]\nall = [\"sun\", \"sky\"]\n"
                                               "[area.hills]\nmask = \"masks/hills.png\"\n",
                                               "[[step]]\ndo = \"wet\"\nwater_g_m2 = 100\narea = \"land\"\n"
                                               "[[step]]\ndo = \"wet\"\nwater_g_m2 = 50\nmask = \"masks/sky.png\"\n"));
    CHECK(form<plan::AreaSet>(p, "land").word == plan::SetWord::minus);
    CHECK(form<plan::AreaSet>(p, "land").areas ==
          std::vector<int>{plan::whole_sheet, p.area_index("sky"), p.area_index("sun")});
    CHECK(form<plan::AreaSet>(p, "low-sun").word == plan::SetWord::both);
    CHECK(form<plan::AreaSet>(p, "lights").word == plan::SetWord::all);
    CHECK(p.steps[0].area() == p.area_index("land"));
    const double sheet_m2 = 0.38 * 0.28, half_disc_m2 = 3.14159265 * 0.02 * 0.02 / 2;
    CHECK(plan::area_m2(p, p.area_index("land")) == Approx(sheet_m2 / 2 - half_disc_m2).epsilon(0.002));
    CHECK(plan::area_m2(p, p.area_index("low-sun")) == Approx(half_disc_m2).epsilon(0.01));
    CHECK(plan::area_m2(p, p.area_index("lights")) == Approx(sheet_m2 / 2 + half_disc_m2).epsilon(0.002));
}

TEST_CASE("a hair-thin line and a small dot are areas", "[plan]") {
    const PlanFolder folder;
    CHECK(folder.said(plan_with("[area.hair]\nline_mm = [[10.4, 10.1], [300.7, 250.2]]\nwidth_mm = 0.2\n"
                                "[area.dot]\nellipse_mm = [100.3, 80.1, 0.2, 0.2]\n"
                                "[area.corner]\nellipse_mm = [0, 0, 1, 1]\n")) == "");
}

TEST_CASE("each form has the word a plan uses for it", "[plan]") {
    const auto word = [](plan::Form form) {
        plan::Area area;
        area.form = std::move(form);
        return std::string(plan::form_word(area));
    };
    CHECK(word(plan::Mask{}) == "mask");
    CHECK(word(plan::Rectangle{}) == "rectangle");
    CHECK(word(plan::Ellipse{}) == "ellipse");
    CHECK(word(plan::Polygon{}) == "polygon");
    CHECK(word(plan::Line{}) == "line");
    CHECK(word(plan::AreaSet{plan::SetWord::all, {}}) == "all");
    CHECK(word(plan::AreaSet{plan::SetWord::minus, {}}) == "minus");
    CHECK(word(plan::AreaSet{plan::SetWord::both, {}}) == "and");
}
