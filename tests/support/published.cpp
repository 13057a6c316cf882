// Compiled into every test program: keeps the lines of a test while it runs and writes them when it ends.
#define CATCH_CONFIG_EXTERNAL_INTERFACES
#include "support/published.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <functional>
#include <unistd.h>
#include <vector>

namespace fs = std::filesystem;

namespace {

enum class Kind { near, relative, at_least, at_most, between };

struct Case {
    double expected, high, got;
    double tolerance;  ///< in the unit
    double off;        ///< how much of the tolerance, or of the bound, is used up: above 1 the check has failed
    double may_differ; ///< on another machine: a tenth of the tolerance, a fiftieth of a bound
};

struct Line {
    Kind kind;
    std::string file, what, source, unit;
    unsigned line = 0;
    double share = 0;
    std::vector<Case> cases;

    /// The worst one, to a twentieth of the tolerance: which of two cases is worse by its last digits is chance.
    const Case& worst() const {
        double most = -INFINITY;
        for (const Case& c : cases)
            if (!(c.off <= most)) // a NaN is the worst
                most = c.off;
        return *std::find_if(cases.begin(), cases.end(), [&](const Case& c) { return !(c.off < most - 0.05); });
    }
};

std::vector<Line>& lines() {
    static std::vector<Line> of_this_test;
    return of_this_test;
}

std::string formatted(const char* format, int digits, double value) {
    char text[64];
    std::snprintf(text, sizeof text, format, digits, value);
    return text;
}

/// As many digits as make a step of at most a tenth of `width`.
std::string number(double value, double width) {
    if (!std::isfinite(value) || !(width > 0) || !std::isfinite(width))
        return formatted("%.*g", 6, value);
    const int decimals = std::max(0, 1 - static_cast<int>(std::floor(std::log10(width))));
    if (decimals <= 4 || (decimals <= 12 && std::abs(value) >= 1e-3 && std::abs(value) < 1e7))
        return formatted("%.*f", decimals, value == 0 ? 0.0 : value);
    const int first = value == 0 ? -decimals : static_cast<int>(std::floor(std::log10(std::abs(value))));
    return formatted("%.*e", std::clamp(first + decimals, 0, 15), value);
}

std::string plain(double value, int digits = 6) { return formatted("%.*g", digits, value); }

std::string with_unit(const std::string& text, const std::string& unit) {
    return unit.empty() ? text : text + ' ' + unit;
}

/// What, source, expected, got, tolerance; then for the check of the README: the bare figure, how much it may differ,
/// whether the check was met. Before all this where it stands, for the order.
std::string row(const Line& l) {
    const Case& c = l.worst();
    std::string what = l.what, expected, tolerance;
    if (l.cases.size() > 1)
        what += " (worst of " + std::to_string(l.cases.size()) + ")";
    switch (l.kind) {
    case Kind::near:
        expected = number(c.expected, c.tolerance), tolerance = "± " + plain(c.tolerance, 3);
        break;
    case Kind::relative:
        expected = number(c.expected, c.tolerance), tolerance = "± " + plain(100 * l.share, 3) + " %";
        break;
    case Kind::at_least:
        expected = "≥ " + plain(c.expected), tolerance = "bound";
        break;
    case Kind::at_most:
        expected = "≤ " + plain(c.expected), tolerance = "bound";
        break;
    case Kind::between:
        expected = plain(c.expected) + " to " + plain(c.high), tolerance = "range";
        break;
    }
    const std::string tab = "\t", at = formatted("%0*.0f", 5, l.line);
    return l.file + tab + at + tab + what + tab + l.source + tab + with_unit(expected, l.unit) + tab +
           with_unit(number(c.got, 10 * c.may_differ), l.unit) + tab + tolerance + tab +
           formatted("%.*g", 17, c.got) + tab + formatted("%.*g", 6, c.may_differ) + tab +
           (c.off <= 1 ? "met" : "NOT MET") + "\n";
}

/// One file a test, so that tests which run at the same time never share one.
fs::path file_of(const Catch::TestCaseInfo& test) {
    const std::string room = fs::path(test.lineInfo.file).stem().string();
    const std::string id = std::to_string(std::hash<std::string>{}(test.name));
    return fs::path(TIDEMARK_BUILD_DIR) / "published" / (room + '-' + id + ".tsv");
}

struct Recorder : Catch::TestEventListenerBase {
    using TestEventListenerBase::TestEventListenerBase;
    fs::path file;

    void testCaseStarting(const Catch::TestCaseInfo& test) override {
        file = file_of(test);
        lines().clear();
        std::error_code gone;
        fs::remove(file, gone); // a crash must not leave the lines of an earlier run
    }
    void testCaseEnded(const Catch::TestCaseStats&) override {
        if (lines().empty())
            return;
        fs::create_directories(file.parent_path());
        const fs::path temporary = file.string() + '.' + std::to_string(getpid());
        std::ofstream out(temporary, std::ios::binary);
        for (const Line& l : lines())
            out << row(l);
        out.close();
        if (!out)
            throw std::runtime_error("can't write " + temporary.string());
        fs::rename(temporary, file);
        lines().clear();
    }
};
CATCH_REGISTER_LISTENER(Recorder)

/// Neither a list of CMake nor a table of the README may take it for something else.
bool fits_a_row(const std::string& text) {
    return std::none_of(text.begin(), text.end(), [](char letter) {
        return static_cast<unsigned char>(letter) < 32 || std::string(";|[]\\").find(letter) != std::string::npos;
    });
}

void record(const published::Check& check, Kind kind, const Case& c, double share, const published::Where& where) {
    REQUIRE((fits_a_row(check.what) && fits_a_row(check.source) && fits_a_row(check.unit)));
    auto same = std::find_if(lines().begin(), lines().end(),
                             [&](const Line& l) { return l.what == check.what && l.source == check.source; });
    if (same == lines().end()) {
        const std::string file = fs::path(where.file).filename().string();
        same = lines().insert(same, Line{kind, file, check.what, check.source, check.unit, where.line, share, {}});
    }
    REQUIRE(same->kind == kind);
    REQUIRE(same->share == share); // one line has one tolerance in percent
    same->cases.push_back(c);
}

std::string told(const published::Check& check, const published::Where& where) {
    return check.what + " (" + check.source + "), " + fs::path(where.file).filename().string() + ':' +
           std::to_string(where.line);
}

} // namespace

namespace published {

void Check::near(double expected, double got, double tolerance, Where where) const {
    REQUIRE(tolerance > 0);
    INFO(told(*this, where));
    CHECK(got == Approx(expected).epsilon(0).margin(tolerance));
    record(*this, Kind::near, {expected, 0, got, tolerance, std::abs(got - expected) / tolerance, tolerance / 10}, 0,
           where);
}

void Check::relative(double expected, double got, double share, Where where) const {
    REQUIRE(share > 0);
    REQUIRE(expected != 0);
    INFO(told(*this, where));
    const double tolerance = share * std::abs(expected);
    CHECK(got == Approx(expected).epsilon(0).margin(tolerance));
    record(*this, Kind::relative, {expected, 0, got, tolerance, std::abs(got - expected) / tolerance, tolerance / 10},
           share, where);
}

void Check::at_least(double bound, double got, Where where) const {
    INFO(told(*this, where));
    CHECK(got >= bound);
    const double scale = bound != 0 ? std::abs(bound) : 1;
    record(*this, Kind::at_least, {bound, 0, got, scale, 1 + (bound - got) / scale, scale / 50}, 0, where);
}

void Check::at_most(double bound, double got, Where where) const {
    INFO(told(*this, where));
    CHECK(got <= bound);
    const double scale = bound != 0 ? std::abs(bound) : 1;
    record(*this, Kind::at_most, {bound, 0, got, scale, 1 + (got - bound) / scale, scale / 50}, 0, where);
}

void Check::between(double low, double high, double got, Where where) const {
    REQUIRE(low < high);
    INFO(told(*this, where));
    CHECK(got >= low);
    CHECK(got <= high);
    const double half = 0.5 * (high - low), middle = low + half;
    record(*this, Kind::between, {low, high, got, half, std::abs(got - middle) / half, half / 10}, 0, where);
}

} // namespace published
