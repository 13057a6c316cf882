/// A first plan from any picture.
#include "colour/lab.h"
#include "colour/layer.h"
#include "grid/csv.h"
#include "grid/problem.h"
#include "reference/draft.h"
#include "reference_pictures.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <unistd.h>

using namespace tidemark;
using namespace tidemark::reference;

namespace {

struct Folder {
    std::filesystem::path path;
    explicit Folder(const std::string& name)
        : path(std::filesystem::temp_directory_path() / (name + "-" + std::to_string(getpid()))) {
        std::filesystem::create_directories(path);
    }
    ~Folder() { std::filesystem::remove_all(path); }
};

bool mentions(const std::string& text, const std::string& what) { return text.find(what) != std::string::npos; }

/// What the plan names must exist: a mask of the sheet's own aspect, neither empty nor unwritten.
void check_files(const std::filesystem::path& folder, const Draft& draft) {
    const double aspect = draft.width_mm / draft.height_mm;
    const grid::Picture reference = grid::read_picture(folder / "reference.png");
    CHECK(static_cast<double>(reference.width) / reference.height == Approx(aspect).epsilon(0.01));
    CHECK(std::max(reference.width, reference.height) <= 1200);
    CHECK(grid::read_text(folder / "plan.toml") == draft.plan_toml);
    int masks = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder / "masks")) {
        ++masks;
        const grid::GreyPicture mask = grid::read_grey(entry.path());
        CHECK(static_cast<double>(mask.width) / mask.height == Approx(aspect).epsilon(0.01));
        CHECK(*std::max_element(mask.value.begin(), mask.value.end()) == 1);
        CHECK(mentions(draft.plan_toml, "mask = \"masks/" + entry.path().filename().string() + "\""));
    }
    const auto softened = std::count_if(draft.passes.begin(), draft.passes.end(), [](const DraftPass& p) { return p.soft.has_value(); });
    CHECK(masks == static_cast<int>(draft.passes.size() + draft.named.size()) + softened + (draft.small_lights ? 1 : 0));
}

Draft drafted(const std::string& name, const grid::Picture& picture, const std::vector<Edit>& edits = {}, const OpenFor& open_for = {}) {
    Looking how;
    how.sheet = sheet_for(picture.width, picture.height, name);
    how.edits = edits;
    const Draft draft = draft_plan(picture, masses_in(picture, how), how, name + ".png", open_for);
    const Folder to("tidemark-drafted-" + name);
    grid::OutputFolder out(to.path / "plan");
    write_draft(draft, out);
    out.commit();
    check_files(to.path / "plan", draft);
    return draft;
}

} // namespace

TEST_CASE("the draft of a photograph has a wash a value, light to dark, each inside the one before",
          "[law][reference]") {
    const Draft d = drafted("photo", tests::landscape(640, 420));
    CHECK(d.width_mm == 280);
    CHECK(d.height_mm == 184);
    CHECK(d.saved_share > 0.01); // the white house stays paper
    REQUIRE(d.passes.size() >= 2);
    const int house_x = 280 * 4 * 3 / 8, house_y = 184 * 4 * 13 / 20, sky_y = 184 * 4 / 5;
    CHECK(d.passes.front().mask.at(house_x, house_y) == 0);
    CHECK(d.passes.front().mask.at(house_x, sky_y) == 1);
    for (std::size_t i = 1; i < d.passes.size(); ++i) {
        CHECK(d.passes[i].share < d.passes[i - 1].share);
        CHECK(d.passes[i].dries_to_lstar < d.passes[i - 1].dries_to_lstar);
        for (std::size_t p = 0; p < d.passes[i].mask.value.size(); ++p)
            if (d.passes[i].mask.value[p] > d.passes[i - 1].mask.value[p])
                FAIL("a later wash leaves the earlier one");
    }
    for (const DraftPass& pass : d.passes)
        CHECK(pass.dries_to_lstar == Approx(pass.wanted_lstar).margin(1.0));
    CHECK(std::string(d.passes.front().mix->name) == "cool"); // the sky
    REQUIRE(d.passes.size() == 3);
    REQUIRE(d.passes[1].start);
    CHECK(d.passes[1].mask.at(static_cast<int>(4 * d.passes[1].start->x_mm), static_cast<int>(4 * d.passes[1].start->y_mm)) == 1);
    CHECK(d.hangs_together > 0.4); // the hill; the upper sky is another piece
    CHECK(mentions(d.plan_toml, "[[want]]"));
    CHECK(mentions(d.plan_toml, "edge = \"hard\"")); // drawn sharp
    CHECK(mentions(d.plan_toml, "side = \"both\""));
    CHECK(mentions(d.plan_toml, "until = \"dry\""));
}

TEST_CASE("a greyscale picture of 200 pixels makes a plan of neutral washes", "[law][reference]") {
    grid::Picture p = tests::flat_picture(200, 150, 0, 0, 0);
    for (int y = 0; y < 150; ++y)
        for (int x = 0; x < 200; ++x)
            std::fill_n(p.at(x, y), 3, static_cast<std::uint8_t>(40 + x));
    const Draft d = drafted("grey", p);
    CHECK(d.passes.size() == 3);
    for (const DraftPass& pass : d.passes)
        CHECK(std::string(pass.mix->name) == "neutral");
}

TEST_CASE("a flat picture makes a plan of one wash over the whole sheet", "[law][reference]") {
    const Draft grey = drafted("flat", tests::flat_picture(300, 400, 128, 128, 128));
    REQUIRE(grey.passes.size() == 1);
    CHECK(grey.passes[0].share == 1);
    CHECK(grey.width_mm == 210);
    CHECK(grey.passes[0].dries_to_lstar == Approx(colour::lstar_from_srgb({128, 128, 128})).margin(0.5));
}

TEST_CASE("a white picture makes a breath of colour, a black one as dark as one wash gets", "[law][reference]") {
    const Draft white = draft_plan(tests::flat_picture(90, 30, 255, 255, 255), "white.png");
    REQUIRE(white.passes.size() == 1);
    CHECK(white.passes[0].dries_to_lstar > 93);
    const Draft black = draft_plan(tests::flat_picture(1, 1, 0, 0, 0), "black.png");
    REQUIRE(black.passes.size() == 1);
    CHECK(mentions(black.plan_toml, "no paint reaches"));
    CHECK(black.passes[0].dries_to_lstar == Approx(darkest_wash_lstar).margin(1));
}

TEST_CASE("where all light is white paper the midtones are still the wash that begins at an end", "[law][reference]") {
    grid::Picture p = tests::flat_picture(400, 300, 140, 140, 140);
    for (int y = 0; y < 300; ++y)
        for (int x = 0; x < 400; ++x)
            if ((y < 40 && x < 60) || (y > 200 && x > 200))
                std::fill_n(p.at(x, y), 3, static_cast<std::uint8_t>(y < 40 ? 252 : 80));
    const Draft d = drafted("white-lights", p);
    REQUIRE(d.passes.size() == 2);
    CHECK(d.passes[0].name == "midtones and darks");
    CHECK(d.passes[0].start);
    CHECK_FALSE(d.passes[1].start);
}

TEST_CASE("a light too small to paint round is set in body colour", "[law][reference]") {
    grid::Picture p = tests::landscape(1120, 736, 2);
    for (int y = 600; y < 607; ++y) // 1.75 mm square, in the hill
        std::fill_n(p.at(900, y), 3 * 7, std::uint8_t{250});
    const Draft d = drafted("glint", p);
    REQUIRE(d.small_lights);
    CHECK(d.small_light_count == 1);
    CHECK(d.small_lights->at(903, 603) == 1);
    CHECK(mentions(d.plan_toml, "do = \"body\""));
    CHECK_FALSE(drafted("no-glint", tests::landscape(1120, 736, 2)).small_lights);
}

TEST_CASE("a wash whose edge is soft in the picture goes into moist paper, a crisp one on dry", "[law][reference]") {
    const auto by_edge = [](double width_mm) {
        grid::Picture p = tests::flat_picture(1120, 840, 0, 0, 0);
        for (int y = 0; y < p.height; ++y) {
            const double light = 0.5 * std::erfc((y - 420) / 4.0 / (width_mm / 2.563) / std::sqrt(2.0));
            for (int x = 0; x < p.width; ++x)
                std::fill_n(p.at(x, y), 3, static_cast<std::uint8_t>(std::lround(60 + 140 * light)));
        }
        Looking how{.sheet = {280, 210}, .groups = 2};
        return draft_plan(p, masses_in(p, how), how, "seam.png");
    };
    const Draft soft = by_edge(6), crisp = by_edge(1.5);
    REQUIRE(soft.passes.size() == 2);
    CHECK(soft.passes[1].into_moist);
    CHECK(soft.passes[1].edge == "soft");
    CHECK(soft.passes[1].edge_mm == Approx(6).epsilon(0.2)); // L* is no straight line of the codes
    CHECK(mentions(soft.plan_toml, "is = \"moist\""));
    CHECK_FALSE(mentions(soft.plan_toml, "dry the first wash"));
    REQUIRE(crisp.passes.size() == 2);
    CHECK_FALSE(crisp.passes[1].into_moist);
    CHECK(crisp.passes[1].edge == "firm");
    CHECK_FALSE(mentions(crisp.plan_toml, "is = \"moist\""));
    CHECK(mentions(crisp.plan_toml, "dry the first wash"));
    CHECK_FALSE(mentions(crisp.plan_toml, "do = \"soften\""));
}

TEST_CASE("where a part of a wash's edge is soft in the picture, that part is softened", "[law][reference]") {
    grid::Picture p = tests::flat_picture(1120, 840, 60, 60, 60); // two lights apart, one with a soft edge
    for (int y = 0; y < p.height; ++y)
        for (int x = 0; x < p.width; ++x) {
            const double crisp = std::hypot(x - 300, y - 420) < 200 ? 1 : 0;
            const double soft = 0.5 * std::erfc((std::hypot(x - 820, y - 420) - 150) / 4 / (6 / 2.563) / std::sqrt(2.0));
            std::fill_n(p.at(x, y), 3, static_cast<std::uint8_t>(std::lround(60 + 140 * std::max(crisp, soft))));
        }
    Looking how{.sheet = {280, 210}, .groups = 2};
    const Draft d = draft_plan(p, masses_in(p, how), how, "two.png");
    REQUIRE(d.passes.size() == 2);
    REQUIRE(d.passes[1].soft);
    CHECK_FALSE(d.passes[1].into_moist);
    CHECK(d.passes[1].soft->beside.at(820, 420) == 1);
    CHECK(d.passes[1].soft->beside.at(300, 420) == 0);
    CHECK(d.passes[1].soft->share == Approx(150.0 / 350).margin(0.04));
    CHECK(d.passes[1].soft->width_mm == Approx(6).epsilon(0.2));
    CHECK((d.passes[1].edge == "hard" || d.passes[1].edge == "firm"));
    CHECK(mentions(d.plan_toml, "do = \"soften\"\narea = \"darks\"\nalong = \"soft-beside-darks\""));
}

TEST_CASE("the film is the shallowest whose edge waits for the hand, lean where the shape is narrow", "[law][reference]") {
    const grid::Picture picture = tests::landscape(640, 420);
    const auto film_when = [&](double seconds_a_um) {
        const Looking how{.sheet = {140, 92}};
        const Draft d = draft_plan(picture, masses_in(picture, how), how, "film.png", [=](double um) { return seconds_a_um * um; });
        REQUIRE(d.passes.size() == 3);
        REQUIRE(d.passes[1].left_s >= 2 * 140 * 12 / 600.0); // the next band
        return std::pair(d.passes[1].film_um, d.passes[1].left_s);
    };
    CHECK(film_when(100).first == draft_films_um[0]);
    const double left_s = film_when(100).second;
    CHECK(film_when(left_s / 130).first == 150);
    CHECK(film_when(1e-6).first == 200); // too long for any: the deepest
    grid::Picture stripes = tests::flat_picture(1120, 840, 220, 220, 220); // 2 mm wide, 14 mm apart
    for (int y = 0; y < 840; ++y)
        for (int x = 0; x < 1120; ++x)
            if (x % 64 < 8) std::fill_n(stripes.at(x, y), 3, std::uint8_t{60});
    Looking how{.sheet = {280, 210}, .groups = 2, .squint = {}};
    const Draft narrow = draft_plan(stripes, masses_in(stripes, how), how, "stripes.png", [](double) { return 1e6; });
    REQUIRE(narrow.passes.size() == 2);
    CHECK(narrow.passes[1].film_um == 60);
    CHECK(mentions(narrow.plan_toml, "film_um = 60"));
}

TEST_CASE("a named mass gets an area of its name, unless a wash has it", "[law][reference]") {
    const grid::Picture picture = tests::landscape(640, 420);
    const Draft d = drafted("named", picture, {{NameMass{"1", "house"}, "--name 1=house"}});
    REQUIRE(d.named.size() == 1);
    CHECK(mentions(d.plan_toml, "[area.house]"));
    CHECK_THROWS_AS(drafted("taken", picture, {{NameMass{"1", "darks"}, "--name 1=darks"}}), grid::BadInput);
}

TEST_CASE("the minutes of a rehearsal stand beside the washes", "[law][reference]") {
    Draft d = drafted("times", tests::landscape(640, 420));
    REQUIRE(d.passes.size() == 3);
    const double not_reached = std::nan("");
    tell_times(d, {{1.2, 20, 30, 61.5}, {not_reached, not_reached, not_reached, not_reached}, {90, 95.5, not_reached, not_reached}});
    CHECK(mentions(d.plan_toml, "# rehearsed: begun at 1:12, its mirror sheen gone at 20:00, no film left at 30:00, dry at 61:30\n"));
    CHECK(mentions(d.plan_toml, "# rehearsed: begun at 90:00, its mirror sheen gone at 95:30\n"));
    CHECK(mentions(d.plan_toml, "is = \"damp\", longest = \"40:00\"")); // a third more than 28.8, to whole five
}

TEST_CASE("a picture far too long for a sheet is refused by name", "[wrong][reference]") {
    try {
        draft_plan(tests::flat_picture(1000, 100, 9, 9, 9), "strip.png");
        FAIL("accepted");
    } catch (const grid::BadInput& e) {
        REQUIRE(e.problems().size() == 1);
        CHECK(e.problems()[0].where == "strip.png");
        CHECK(mentions(e.problems()[0].what, "1000 x 100"));
        CHECK(mentions(e.problems()[0].allowed, "9 times"));
    }
}

TEST_CASE("a picture's name cannot break out of the plan's comment", "[wrong][reference]") {
    const Draft d = draft_plan(tests::flat_picture(40, 40, 99, 99, 99), "a\ntidemark = 2\xff.png");
    CHECK(mentions(d.plan_toml, "# A first plan, drafted from a?tidemark = 2?.png."));
}

TEST_CASE("the draft's strength table follows from the pigment presets", "[law][reference]") {
    const std::filesystem::path presets = TIDEMARK_PRESETS_DIR;
    const auto pigments = grid::CsvTable::read(presets / "pigments.csv");
    const auto spectra = grid::CsvTable::read(presets / "paper_spectra.csv");
    colour::Reflectance paper;
    for (int band = 0; band < colour::bands; ++band)
        paper.at[band] = static_cast<float>(spectra.number(band, "natural"));
    const colour::BodyReflectance ground = colour::body_from_seen(colour::dry_matt, paper);
    CHECK(colour::lab_from(colour::xyz_from(paper)).L == Approx(paper_lstar).margin(0.05));
    for (const DraftMix& mix : draft_mixes())
        for (int step = 0; step < strength_steps; ++step) {
            const double load_kg_m2 = 1e-3 * first_load_g_m2 * std::pow(2.0, 0.5 * step);
            colour::Bands KX{}, SX{};
            for (const MixPart& part : mix.parts)
                for (std::size_t row = 0; row < pigments.rows(); ++row) {
                    if (pigments.text(row, "id") != part.pigment)
                        continue;
                    for (int band = 0; band < colour::bands; ++band) {
                        const std::string nm = std::to_string(400 + 20 * band);
                        const double kg_m2 = part.share * load_kg_m2;
                        KX[band] += static_cast<float>(kg_m2 * pigments.number(row, "K_" + nm + "_m2_kg"));
                        SX[band] += static_cast<float>(kg_m2 * pigments.number(row, "S_" + nm + "_m2_kg"));
                    }
                }
            const auto seen = colour::seen_through(colour::dry_matt, colour::km_over(KX, SX, ground));
            // The table is printed to 0.1.
            CHECK(mix.lstar[step] == Approx(colour::lab_from(colour::xyz_from(seen)).L).margin(0.1));
        }
}

TEST_CASE("strength and value are each other's inverse, and more pigment is never lighter", "[law][reference]") {
    for (const DraftMix& mix : draft_mixes()) {
        CHECK(load_for(mix, 100) == 0);
        CHECK(load_for(mix, 5) == strongest_load_g_m2);
        for (double lstar = 94; lstar > 32; lstar -= 0.7)
            CHECK(lstar_at(mix, load_for(mix, lstar)) == Approx(lstar).margin(1e-6));
        for (double load = 0.01; load < 40; load *= 1.1)
            CHECK(lstar_at(mix, load * 1.1) <= lstar_at(mix, load));
    }
}
