#include "report/transfer.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <optional>

#include "cli/commands.h"
#include "cli/masses_options.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "reference/outline.h"

namespace tidemark::cli {
namespace {

constexpr std::int64_t most_pixels = 100'000'000;

double square_from(const std::string& text, const reference::SheetSize& sheet) {
    if (text.empty()) return report::usual_square_mm(sheet.width_mm, sheet.height_mm);
    const double least = std::max(report::smallest_square_mm, std::ceil(sheet.width_mm / report::most_columns));
    const double most = std::max(sheet.width_mm, sheet.height_mm);
    const auto side = numbers(text, "");
    if (!side || !((*side)[0] >= least && (*side)[0] <= most))
        refuse("--grid", text, fmt::format("the side of a square, {:g} to {:g} mm", least, most));
    return (*side)[0];
}

/// "42%" of the sheet's height, or mm.
double eye_line_from(const std::string& text, const reference::SheetSize& sheet) {
    const bool percent = !text.empty() && text.back() == '%';
    const auto number = numbers(percent ? text.substr(0, text.size() - 1) : text, "");
    const double mm = !number ? -1 : percent ? (*number)[0] / 100 * sheet.height_mm : (*number)[0];
    if (!(mm >= 0 && mm <= sheet.height_mm))
        refuse("--eye-line", text, fmt::format("from the top of the sheet: 0 to {:g} mm, or 0% to 100% of its height",
                                               sheet.height_mm));
    return mm;
}

std::vector<reference::PointMm> heads_from(const TransferOptions& o, const reference::SheetSize& sheet) {
    if (!o.heads.empty() && o.eye_line.empty())
        throw grid::BadInput("--head", "heads are held to the eye line, and there is none", "--eye-line with it");
    std::vector<reference::PointMm> heads;
    for (const std::string& text : o.heads) {
        const auto at = numbers(text, ",");
        if (!at || !((*at)[0] >= 0 && (*at)[0] <= sheet.width_mm && (*at)[1] >= 0 && (*at)[1] <= sheet.height_mm))
            refuse("--head", text, fmt::format("x,y in mm from the top left corner of the sheet, up to {:g},{:g}",
                                               sheet.width_mm, sheet.height_mm));
        heads.push_back({(*at)[0], (*at)[1]});
    }
    return heads;
}

using Writer = std::vector<std::uint8_t> (*)(const report::LineDrawing&);

Writer writer_for(const std::filesystem::path& file, const reference::SheetSize& sheet) {
    std::string kind = file.extension().string();
    std::transform(kind.begin(), kind.end(), kind.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? c + 32 : c; });
    if (kind == ".svg") return &report::svg_bytes;
    if (kind == ".pdf") return &report::pdf_bytes;
    if (kind != ".png") refuse("--out", file.string(), "a name that ends in .png, .pdf or .svg");
    const std::int64_t width = report::print_pixels(sheet.width_mm), height = report::print_pixels(sheet.height_mm);
    if (width * height > most_pixels)
        throw grid::BadInput("--out", fmt::format("a PNG of this sheet is {} x {} pixels", width, height),
                             fmt::format("at most {} pixels in all; a PDF or SVG of any sheet", most_pixels));
    return &report::png_bytes;
}

void say_of_heads(const std::vector<report::HeadCheck>& checks, double eye_height_m) {
    constexpr double lowest_m = 1.4, highest_m = 1.8; // eyes of grown-ups who stand; from memory
    if (eye_height_m < lowest_m || eye_height_m > highest_m) {
        fmt::print("Seen from {:g} m above the ground the eye line cuts grown-ups at that height, not at their heads: "
                   "heads are not judged\n",
                   eye_height_m);
        return;
    }
    for (std::size_t k = 0; k < checks.size(); ++k) {
        const double below = checks[k].below_mm;
        if (checks[k].on_line)
            fmt::print("head {} is on the eye line, within {:g} mm\n", k + 1, report::head_tolerance_mm);
        else
            fmt::print("head {} stands {:.1f} mm {} the eye line\n", k + 1, std::fabs(below),
                       below > 0 ? "below" : "above");
    }
    fmt::print("This goes for grown-ups who stand on level ground, seen by one who stands there: not for children, for "
               "who sits, or on a slope\n");
}

} // namespace

bool draw_transfer(const TransferOptions& o) {
    report::TransferSheet page;
    const reference::SheetSize sheet = sheet_from(o.masses.sheet_mm);
    looking(o.masses); // what is wrong with options is said before the picture is read
    const std::filesystem::path file = output_file(o.out, "--out");
    if (same_file(file, o.picture))
        throw grid::BadInput("--out", fmt::format("\"{}\" is the picture", o.out), "another file");
    if (!o.masses.masks.empty() && same_file(file.parent_path().empty() ? "." : file.parent_path(), reference::masks_folder(o.masses.masks)))
        throw grid::BadInput("--out", fmt::format("\"{}\" lies among the masks", o.out), "another folder");
    const Writer bytes = writer_for(file, sheet);
    page.width_mm = sheet.width_mm, page.height_mm = sheet.height_mm;
    page.square_mm = square_from(o.grid, sheet);
    if (!o.eye_line.empty()) page.eye_line_mm = eye_line_from(o.eye_line, sheet);
    page.heads = heads_from(o, sheet);
    if (!(o.standing_m >= 0.3 && o.standing_m <= 3))
        refuse("--standing", fmt::format("{:g}", o.standing_m), "0.3 to 3 m");

    const Found found = found_in(o.picture, o.masses);
    page.title = std::filesystem::path(o.picture).filename().string();
    page.outlines = reference::outlines(found.seen.masses, sheet.width_mm, sheet.height_mm);

    grid::OutputFolder out(file.parent_path());
    out.write(file.filename().string(), bytes(report::transfer_drawing(page)));
    out.commit();
    fmt::print("{} masses in outline on {:g} x {:g} mm, squares of {:g} mm. Look at {}\n", found.seen.masses.list.size(),
               sheet.width_mm, sheet.height_mm, page.square_mm, o.out);
    say_found(o.picture, found);
    if (!page.heads.empty()) say_of_heads(report::check_heads(page.heads, *page.eye_line_mm), o.standing_m);
    return true;
}

} // namespace tidemark::cli
