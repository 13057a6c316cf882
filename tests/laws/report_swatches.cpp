#include "grid/csv.h"
#include "materials/presets.h"
#include "report/lettering_detail.h"
#include "report/swatches.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

using namespace tidemark;

namespace {

const materials::Presets& presets() {
    static const materials::Presets all = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    return all;
}

report::Swatches of_presets(colour::Light light = colour::Light::D65) {
    return report::swatches(*presets().paper("cold-pressed-300"), presets().pigments, light);
}

/// How many pixels of the picture have that code.
long count(const grid::Picture& p, colour::Srgb8 c) {
    long n = 0;
    for (std::size_t k = 0; k < p.rgb.size(); k += 3) n += p.rgb[k] == c.r && p.rgb[k + 1] == c.g && p.rgb[k + 2] == c.b;
    return n;
}

} // namespace

TEST_CASE("wet paint is darker than the same paint dry, and more paint is darker or as white", "[law][report]") {
    for (const colour::Light light : {colour::Light::D65, colour::Light::D50})
        for (const report::SwatchRow& row : of_presets(light).rows) {
            INFO(row.pigment.id);
            for (std::size_t k = 0; k < row.swatches.size(); ++k) {
                CHECK(row.swatches[k].wet.lab.L < row.swatches[k].dry.lab.L);
                if (k > 0 && row.pigment.id.substr(0, 2) != "PW")
                    CHECK(row.swatches[k].dry.lab.L < row.swatches[k - 1].dry.lab.L);
            }
        }
}

TEST_CASE("in warmer light a blue is darker and an orange lighter, and the paper stays as white", "[law][report]") {
    const report::Swatches cool = of_presets(), warm = of_presets(colour::Light::D50);
    const auto shift = [&](const std::string& id) {
        for (std::size_t r = 0; r < cool.rows.size(); ++r)
            if (cool.rows[r].pigment.id == id)
                return warm.rows[r].swatches[3].dry.lab.L - cool.rows[r].swatches[3].dry.lab.L;
        return 0.0;
    };
    CHECK(shift("PB29") < -0.5);
    CHECK(shift("PO62") > 0.5);
    CHECK(std::abs(warm.bare.lab.L - cool.bare.lab.L) < 0.2);
    CHECK(std::abs(warm.bare.code.b - cool.bare.code.b) <= 2);
}

TEST_CASE("the table has the swatches of the chart", "[law][report]") {
    const report::Swatches all = of_presets(colour::Light::D50);
    const auto table = grid::CsvTable::parse(report::swatch_table(all), "swatches.csv");
    REQUIRE(table.rows() == all.rows.size() * report::swatch_loads_kg_m2.size());
    const report::Swatch& last = all.rows.back().swatches.back();
    const std::size_t r = table.rows() - 1;
    CHECK(table.text(r, "id") == all.rows.back().pigment.id);
    CHECK(table.text(r, "light") == "D50");
    CHECK(table.number(r, "load_g_m2") == Approx(8));
    CHECK(table.number(r, "wet_L") == Approx(last.wet.lab.L).epsilon(1e-3));
    CHECK(table.number(r, "dry_b") == Approx(last.dry.lab.b).epsilon(1e-3));
}

TEST_CASE("every swatch lies on the card in its two colours, on the paper's own white", "[law][report]") {
    const report::Swatches all = of_presets();
    const grid::Picture card = report::swatch_card(all, materials::read_cautions(TIDEMARK_PRESETS_DIR));
    CHECK(card.width == 2400);
    CHECK(count(card, all.bare.code) > 2400L * card.height / 2);
    for (const report::SwatchRow& row : all.rows)
        for (const report::Swatch& s : row.swatches) {
            INFO(row.pigment.id << ' ' << s.load_kg_m2);
            CHECK(count(card, s.wet.code) >= 50 * 80);
            CHECK(count(card, s.dry.code) >= 50 * 80);
        }
    for (int x = 0; x < card.width; ++x) // a margin all round
        for (const int y : {0, 99, card.height - 90, card.height - 1})
            if (card.at(x, y)[0] != all.bare.code.r) FAIL("ink at " << x << ", " << y);
}

TEST_CASE("a caution of level medium or high adds its lines to the card, a low one none", "[law][report]") {
    const report::Swatches all = of_presets();
    const auto height = [&](const std::vector<materials::Caution>& cautions) {
        return report::swatch_card(all, cautions).height;
    };
    CHECK(height({{{"PB28"}, "PB28", "low", "Wash hands."}}) == height({}));
    CHECK(height({{{"warm-air"}, "hair dryer", "high", "Keep it dry."}}) == height({}));
    CHECK(height({{{"PB28"}, "PB28", "medium", "Wash hands."}}) > height({}));
}

TEST_CASE("a card of one pigment, or none, or a word without an end, is drawn", "[law][report]") {
    materials::Pigment p = presets().pigments.front();
    p.name = std::string(400, 'w') + " blue";
    for (const std::vector<materials::Pigment>& pigments : {std::vector<materials::Pigment>{}, {p}, {p, p, p}}) {
        const auto all = report::swatches(*presets().paper("rough-300"), pigments, colour::Light::D65);
        CHECK(report::swatch_card(all, {}).height > 400);
    }
}

TEST_CASE("the card has a letter for all that it says", "[law][report]") {
    std::string said = "²µ!%,.:;()";
    for (const materials::Pigment& p : presets().pigments) said += p.id + p.name;
    for (const materials::Caution& c : materials::read_cautions(TIDEMARK_PRESETS_DIR)) said += c.what + c.text;
    std::set<char> drawn;
    for (const report::Letter* l = report::letters; l->rows != nullptr; ++l) drawn.insert(l->character);
    for (const char c : said)
        if (c != '\xc2') {
            INFO(c << " (" << int(c) << ")");
            CHECK(drawn.count(c) == 1);
        }
    CHECK(report::text_width("g/m²", 3) == report::text_width("g/m2", 3));
    const auto written = [](const std::string& text) {
        grid::Picture p{40, 30, std::vector<std::uint8_t>(3 * 40 * 30, 255)};
        report::draw_text(p, 0, 0, text, 3, 0);
        return p.rgb;
    };
    CHECK((written("²") == written("\xb2"))); // one letter, though two bytes
    CHECK((written("²") != written("?")));
}

TEST_CASE("text is broken between words, and a word too long is cut", "[law][report]") {
    const int ten = report::text_width("0123456789", 3);
    using Lines = std::vector<std::string>;
    CHECK(report::wrapped("one two three four", ten, 3) == Lines{"one two", "three four"});
    CHECK(report::wrapped("a 012345678901234", ten, 3) == Lines{"a", "0123456789", "01234"});
    CHECK(report::wrapped("", ten, 3).empty());
}
