#include "support/a_brush.h"
#include "support/report_scene.h"

#include <catch2/catch.hpp>

using namespace report_scene;
using tests::brush;

namespace {
std::string text_of(const Scene& s, bool dry = true) {
    const Folder folder;
    grid::OutputFolder out(folder.path);
    const auto v = report::write_outputs(s.inputs(dry), out);
    return report::summary(s.inputs(dry), v, materials::read_cautions(TIDEMARK_PRESETS_DIR));
}
bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
} // namespace

TEST_CASE("the summary tells times, edges, values, mixes and warnings", "[law][report]") {
    const Scene s = make_scene();
    const std::string text = text_of(s);
    INFO(text);
    CHECK(has(text, "Dry at 30:00\n"));
    CHECK(has(text, "Edges: 0 of 1 as wanted\n"));
    CHECK(has(text, "! dark | left: wanted soft, found hard"));
    CHECK(has(text, "of the sheet in the reference's group"));
    CHECK(has(text, "; reads at three metres: kappa "));
    CHECK(has(text, "Have ready: sky, pale 1 mL\n"));
    CHECK(has(text, "Warning: the brush ran dry in \"light\"\n"));
    CHECK(has(text_of(s, false), "Stopped at 30:00, not dry yet\n"));
}

TEST_CASE("the summary says how often a brush is filled and what stays in it", "[law][report]") {
    Scene s = make_scene();
    auto& act = s.record.acts[0];
    auto& wash = std::get<plan::Wash>(s.plan.steps[act.step].act);
    wash.brush = brush("mop", 0.4e-6, 0.1e-6);
    act.brush_loads = 2, act.water_kg = 0.13e-3;
    const std::string text = text_of(s);
    INFO(text);
    CHECK(has(text, " mL, mop filled twice, 0.4 mL stay in it")); // 0.4 + 0.1 taken, 0.13 laid
}

TEST_CASE("a wish met by the edge counts", "[law][report]") {
    Scene s = make_scene();
    s.plan.wants[0].edge = plan::EdgeWord::hard;
    CHECK(has(text_of(s), "Edges: 1 of 1 as wanted\n"));
}

TEST_CASE("a wish that can't be judged is counted and says why", "[law][report]") {
    Scene s = make_scene();
    s.plan.wants.push_back({12, "left", "stalk", plan::EdgeWord::lost});
    const std::string text = text_of(s);
    INFO(text);
    CHECK(has(text, "Edges: 0 of 2 as wanted, 1 not judged\n"));
    CHECK(has(text, "? left | stalk: wanted lost, not judged: \"stalk\" was not painted in this run\n"));
}

TEST_CASE("the summary's columns are called by the stages of the plan", "[law][report]") {
    const std::string text = text_of(make_scene());
    std::string header = text.substr(text.find("From when"));
    header.resize(header.find('\n'));
    std::size_t at = 0;
    for (const plan::Stage stage : {plan::Stage::wet, plan::Stage::moist, plan::Stage::damp, plan::Stage::dry}) {
        at = header.find(plan::word(stage), at);
        CHECK(at != std::string::npos);
    }
}

TEST_CASE("the summary says each mark in a line, the most telling first, and how many it leaves out", "[law][report]") {
    const Scene s = make_scene();
    const auto said = [&](std::size_t count) {
        const Folder folder;
        grid::OutputFolder out(folder.path);
        auto v = report::write_outputs(s.inputs(), out);
        v.marks.clear();
        for (std::size_t k = 0; k < count; ++k) {
            judge::Mark m;
            m.size_mm = 5 + static_cast<double>(k), m.dark_L = 3, m.text = "a lap of " + std::to_string(k);
            v.marks.push_back(m);
        }
        return report::summary(s.inputs(), v, {});
    };
    CHECK_FALSE(has(said(0), "Marks"));
    CHECK(has(said(2), "Marks on the sheet:\n  a lap of 1\n  a lap of 0\n"));
    CHECK(has(said(11), "  a lap of 3\n  and 3 more in marks.csv\n"));
}

TEST_CASE("cautions are told for the plan's pigments and for warm air, and for nothing else", "[law][report]") {
    Scene s = make_scene(); // PB29 (low) and PY150 (medium)
    const std::string text = text_of(s);
    CHECK(has(text, "Caution, PY150"));
    CHECK_FALSE(has(text, "PR108"));
    CHECK_FALSE(has(text, "dryer"));
    CHECK(has(text, "local rules decide.\n"));
    plan::Dry dry;
    dry.warm_air = true;
    add_step(s, "warm air", dry, 600);
    CHECK(has(text_of(s), "dryer"));
    CHECK(has(text_of(s), "wet hands"));
    s.plan.steps.pop_back(), s.record.acts.pop_back();
    s.plan.pigments.pop_back(), s.plan.mixes[0].pigments.pop_back();
    CHECK_FALSE(has(text_of(s), "Caution"));
}

TEST_CASE("judging again for the summary says the same", "[law][report]") {
    const Scene s = make_scene();
    setenv("TIDEMARK_PRESETS", TIDEMARK_PRESETS_DIR, 1);
    CHECK(report::summary(s.inputs()) == text_of(s));
}
