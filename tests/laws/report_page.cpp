#include "report/html.h"
#include "report/page.h"
#include "report/type_size.h"
#include "support/html_check.h"
#include "support/report_scene.h"

#include <catch2/catch.hpp>

using namespace report_scene;
using tests::HtmlCheck;

namespace {

const std::vector<std::string> nothing;

std::string page_of(const Scene& s, const std::optional<std::vector<judge::Advice>>& advice = std::nullopt) {
    const sheet::Look dried = sheet::look(s.sheet, sheet::LookAs::dried);
    judge::Verdicts v = judge::judge_run(s.plan, s.record, dried.lstar, s.sheet.geometry);
    v.advice = advice;
    const std::optional<report::WetSheet> wet = report::WetSheet{sheet::look(s.sheet, sheet::LookAs::as_now).picture, 320, 0.5};
    return report::page_text({s.plan, s.record, v, dried, wet, materials::read_cautions(TIDEMARK_PRESETS_DIR)});
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_CASE("the strict reader finds what browsers mend", "[law][report]") {
    const std::string head = "<!DOCTYPE html>\n<html lang=\"en\"><head><title>t</title></head><body><main><h1>t</h1>";
    const std::string foot = "</main></body></html>\n";
    CHECK(HtmlCheck(head + foot).problems == nothing);
    for (const char* wrong :
         {"<p>a", "<p>a</b></p>", "a</p>", "<p>a & b</p>", "<p class=a>b</p>", "<p id=\"x\"></p><p id=\"x\"></p>", "<li>a</li>",
          "<img src=\"a.png\" alt=\"a picture of some kind\">", "<img src=\"data:image/png;base64,AA==\" alt=\"\">",
          "<p><div>a</div></p>", "<script>a</script>", "<p onclick=\"a\">b</p>", "<p>https://a</p>", "<h1>again</h1>",
          "<table><tr><td>a</td></tr></table>", "<p aria-labelledby=\"nowhere\">a</p>", "<p", "<p title=\"a<b\">c</p>"}) {
        INFO(wrong);
        CHECK(HtmlCheck(head + wrong + foot).problems != nothing);
    }
}

TEST_CASE("report.html is whole, holds all its pictures and fetches nothing", "[law][report]") {
    const std::string text = page_of(make_scene());
    const HtmlCheck page(text);
    CHECK(page.problems == nothing);
    CHECK(page.count("img") == 6); // reference, its values, planned; wet, dry, difference
    CHECK(page.count("h1") == 1);
    CHECK(page.count("table") == 3); // cues, mixes, edges
    CHECK(has(text, "0 of 1 as wanted"));
    CHECK(has(text, "the brush ran dry in &quot;light&quot;"));
    CHECK(has(text, "The label, the safety sheet and local rules decide."));
    CHECK(page_of(make_scene()) == text);
}

TEST_CASE("pictures that need a reference are left out without one", "[law][report]") {
    Scene s = make_scene();
    s.plan.reference.reset();
    const HtmlCheck page(page_of(s));
    CHECK(page.problems == nothing);
    CHECK(page.count("img") == 3);
}

TEST_CASE("a number and its unit stay on one line", "[law][report]") {
    CHECK(report::with_units("12 mm, 3 g of it, 5 gates, 4 %") == "12\u00a0mm, 3\u00a0g of it, 5 gates, 4\u00a0%");
    CHECK(report::with_units("a mm, 6 µL") == "a mm, 6\u00a0µL");
}

TEST_CASE("names from a plan are text and nothing else", "[law][report]") {
    Scene s = make_scene();
    const std::string name = "</td><script>alert(\"1\")</script> & 'data:' \xff";
    s.plan.steps[0].name = name, s.plan.areas[0].name = name, s.plan.mixes[0].name = name, s.record.warnings = {name};
    s.plan.wants[0].second = name;
    s.plan.file = "<b>.toml";
    const std::string text = page_of(s);
    CHECK(HtmlCheck(text).problems == nothing);
    CHECK(has(text, "&lt;/td&gt;&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt; &amp; &#39;data:&#39; ?"));
    CHECK(has(text, "<h1>&lt;b&gt;: cue sheet</h1>"));
}

TEST_CASE("advice is told when it was tried, and how to ask for it when it was not", "[law][report]") {
    Scene s = make_scene();
    CHECK(has(page_of(s), "Not tried. With --advise"));
    CHECK(has(page_of(s, std::vector<judge::Advice>{}), "none came nearer to what is wanted"));
    const std::string told = page_of(s, std::vector<judge::Advice>{{"begin &#39;dark&#39; later", "hard", "soft, 4 mm", "dark.wait=1:00", 1}});
    CHECK(has(told, "<li>begin &amp;#39;dark&amp;#39; later: hard; then soft, 4\u00a0mm</li>"));
    CHECK_FALSE(has(told, "Not tried"));
    s.plan.wants.clear();
    CHECK(has(page_of(s), "nothing was tried"));
}

TEST_CASE("the more a page holds the smaller its letters, down to six points", "[law][report]") {
    double before = 100;
    for (const int steps : {0, 20, 40, 60, 120}) {
        Scene s = make_scene();
        for (int k = 0; k < steps; ++k)
            add_step(s, "another " + std::to_string(k), plan::Wash{.area = 1}, 400 + 10 * k);
        const std::string text = page_of(s);
        CHECK(HtmlCheck(text).problems == nothing);
        const double type = std::stod(text.substr(text.find("--type:") + 7));
        INFO(steps);
        CHECK(type <= before);
        CHECK(type >= report::least_type_pt);
        before = type;
    }
    CHECK(before == report::least_type_pt);
}

TEST_CASE("letters are as large as fits", "[law][report]") {
    CHECK(report::type_pt([](double) { return 10.0; }) == report::largest_type_pt);
    CHECK(report::type_pt([](double pt) { return 30 * pt; }, 255) == 8.5);
    CHECK(report::type_pt([](double) { return 1000.0; }) == report::least_type_pt);
    CHECK(report::characters("µL–") == 3);
    CHECK(report::lines_of(1, 50, 8) == 1);
    CHECK(report::lines_of(200, 50, 8) > report::lines_of(100, 50, 8));
}
