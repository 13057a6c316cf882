#include <catch2/catch.hpp>
#include <cmath>

#include "grid/csv.h"
#include "grid/problem.h"

using namespace tidemark;
using grid::CsvTable;

TEST_CASE("a table gives its cells by row and column", "[law][grid]") {
    const auto table = CsvTable::parse("\xEF\xBB\xBF# a comment\r\n\r\nid, depth_um ,note\r\n"
                                       "one,2.5,plain\n# between\ntwo,-1e3,\"with , and \"\" and\nline\"\nthree,+.5,",
                                       "papers.csv");
    REQUIRE(table.rows() == 3);
    CHECK(table.columns() == std::vector<std::string>{"id", "depth_um", "note"});
    CHECK(table.text(0, "note") == "plain");
    CHECK(table.text(1, "note") == "with , and \" and\nline");
    CHECK(table.text(2, "note").empty());
    CHECK(table.number(0, "depth_um") == 2.5);
    CHECK(table.number(1, "depth_um") == -1000);
    CHECK(table.number(2, "depth_um") == 0.5);
    CHECK(table.where(0) == "papers.csv:4");
    CHECK(table.where(1) == "papers.csv:6");
    CHECK(table.where(2) == "papers.csv:8"); // the row above takes two lines
    CHECK(table.has("id"));
    CHECK_FALSE(table.has("width"));
}

TEST_CASE("a bad table is refused with file, row and column", "[wrong][grid]") {
    const auto parse = [](const char* text) { return CsvTable::parse(text, "papers.csv"); };
    CHECK_THROWS_WITH(parse(""), "papers.csv: no header line; allowed: column names, separated by commas");
    CHECK_THROWS_WITH(parse("# nothing\n"), "papers.csv: no header line; allowed: column names, separated by commas");
    CHECK_THROWS_WITH(parse("a,,b\n"), "papers.csv:1: column 2 has no name");
    CHECK_THROWS_WITH(parse("a,b,a\n"), "papers.csv:1: column \"a\" is there twice");
    CHECK_THROWS_WITH(parse("a,b\n1,2\n\n1\n"), "papers.csv:4: 1 cells; allowed: 2, as in the header");
    CHECK_THROWS_WITH(parse("a,b\n1,2,3\n"), "papers.csv:2: 3 cells; allowed: 2, as in the header");
    CHECK_THROWS_WITH(parse("a,b\n1,\"open\n"), "papers.csv:2: a quote is opened and never closed");
    CHECK_THROWS_WITH(parse("a,b\n1,\"x\"y\n"),
                      "papers.csv:2: text after a closing quote; allowed: a comma or the line's end");
    const auto table = parse("id,x\na,ten\nb,\nc,inf\nd,1.5mm\ne,nan\nf,1e999\n");
    CHECK_THROWS_WITH(table.text(0, "y"), "papers.csv: no column \"y\"");
    CHECK_THROWS_WITH(table.number(0, "x"), "papers.csv:2: column \"x\" is \"ten\"; allowed: a number");
    for (std::size_t row = 0; row < table.rows(); ++row) CHECK_THROWS_AS(table.number(row, "x"), grid::BadInput);
}

TEST_CASE("what the writer writes the reader reads back", "[law][grid]") {
    const std::vector<std::string> cells{"plain", "a, b", "\"quoted\"", "two\nlines", "# no comment", " spaces ", ""};
    grid::CsvWriter writer({"text", "value"});
    for (const std::string& cell : cells) writer.cell(cell).number(0.1).end_row();
    const auto table = CsvTable::parse(writer.text(), "out.csv");
    REQUIRE(table.rows() == cells.size());
    for (std::size_t row = 0; row < cells.size(); ++row) CHECK(table.text(row, "text") == cells[row]);
}

TEST_CASE("a name that a spreadsheet would reckon is written as text", "[law][grid]") {
    const auto text = [](const std::string& cell) {
        grid::CsvWriter writer({"x"});
        writer.cell(cell).end_row();
        return writer.text().substr(2);
    };
    CHECK(text("=1+1") == "'=1+1\n");
    CHECK(text("@SUM(A1)") == "'@SUM(A1)\n");
    CHECK(text("+cmd|x") == "'+cmd|x\n");
    CHECK(text("-x, y") == "\"'-x, y\"\n");
    for (const char* plain : {"-1.5", "+2", "-0:05", "-", "sky = blue", "3e-05"}) CHECK(text(plain) == std::string(plain) + "\n");
}

TEST_CASE("numbers are written short, and never as words", "[law][grid]") {
    const auto text = [](double value, int digits) {
        grid::CsvWriter writer({"x"});
        writer.number(value, digits).end_row();
        return writer.text().substr(2);
    };
    CHECK(text(0.1, 6) == "0.1\n");
    CHECK(text(1.0 / 3, 3) == "0.333\n");
    CHECK(text(123456789, 6) == "1.23457e+08\n");
    CHECK(text(-0.0, 6) == "0\n");
    CHECK(text(NAN, 6) == "\n");
    CHECK(CsvTable::parse("x\n" + text(1.0 / 3, 17), "x").number(0, "x") == 1.0 / 3);
    grid::CsvWriter writer({"a", "b"});
    writer.cell("1");
    CHECK_THROWS_AS(writer.end_row(), grid::InternalError);
}

TEST_CASE("times are minutes and seconds", "[law][grid]") {
    CHECK(grid::clock_text(0) == "0:00");
    CHECK(grid::clock_text(460) == "7:40");
    CHECK(grid::clock_text(59.6) == "1:00");
    CHECK(grid::clock_text(7265) == "121:05");
    CHECK(grid::clock_text(-5) == "-0:05");
}

TEST_CASE("a slip of the finger finds the name that was meant", "[wrong][grid]") {
    const std::vector<std::string> names{"PB15:3", "PB27", "PB29", "PR101", "cold-pressed-300", "rough-300"};
    CHECK(grid::did_you_mean("PB92", names) == "; did you mean \"PB29\"?");
    CHECK(grid::did_you_mean("pb29", names) == "; did you mean \"PB29\"?");
    CHECK(grid::did_you_mean("cold-presed-300", names) == "; did you mean \"cold-pressed-300\"?");
    CHECK(grid::did_you_mean("PR10", names) == "; did you mean \"PR101\"?");
    CHECK(grid::did_you_mean("vermilion", names).empty());
    CHECK(grid::did_you_mean("", names).empty());
    CHECK(grid::did_you_mean("x", {}).empty());
    CHECK(grid::did_you_mean(std::string(100000, 'P'), names).empty());
}

TEST_CASE("every problem is one line with its place in front", "[wrong][grid]") {
    const grid::BadInput bad({{"plan.toml:31", "pace is -2", "0.5 to 60"}, {"plan.toml:40", "no such area", ""}});
    CHECK(std::string(bad.what()) == "plan.toml:31: pace is -2; allowed: 0.5 to 60\nplan.toml:40: no such area");
    CHECK(bad.problems().size() == 2);
}
