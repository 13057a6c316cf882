#include "report/edge_rows.h"
#include "report/page_detail.h"
#include "report/page_pictures.h"
#include "report/tables.h"
#include "report/type_size.h"
#include "report/verdict_text.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

constexpr double gap_mm = 5; ///< between three columns, as page_style.cpp has it
constexpr double third_mm = (printed_width_mm - 2 * gap_mm) / 3;
constexpr double tallest_mm = 46, shortest_mm = 26;
constexpr std::size_t most_marks = 6, most_areas = 4, most_advice = 6;
constexpr double worth_telling_L = 5; ///< half a step of a ten-step scale

/// A list with its heading; nothing at all when there is nothing to say.
struct List {
    std::string id, heading, before;
    std::vector<std::string> items;
    bool numbered = false;

    void write(Html& h) const {
        h.inside("section", {{"aria-labelledby", id}}, [&] {
            h.element("h2", {{"id", id}}, heading);
            if (!before.empty())
                h.element("p", {}, before);
            if (!items.empty())
                h.inside(numbered ? "ol" : "ul", {}, [&] {
                    for (const std::string& item : items)
                        h.element("li", {}, item);
                });
        });
    }
    double height_mm(double width_mm, double pt) const {
        double lines = 2.2 + (before.empty() ? 0 : lines_of(characters(before), width_mm, pt));
        for (const std::string& item : items)
            lines += lines_of(characters(item), width_mm - 1.2 * line_mm(pt), pt);
        return lines * line_mm(pt);
    }
};

List marks_list(const judge::Verdicts& v) {
    List list{"marks", "Marks on the sheet", v.marks.empty() ? "No lap, bloom or run to be seen." : "", {}};
    const std::vector<const judge::Mark*> plain = plainest(v.marks);
    for (std::size_t k = 0; k < std::min(plain.size(), most_marks); ++k)
        list.items.push_back(plain[k]->text);
    if (plain.size() > most_marks)
        list.items.push_back(fmt::format("and {} more in marks.csv", plain.size() - most_marks));
    return list;
}

/// Areas whose value is off, the worst first.
std::vector<std::string> areas_off(const judge::Values& v) {
    std::vector<const judge::AreaValues*> off;
    for (const judge::AreaValues& a : v.areas)
        if (std::abs(a.sheet_L - a.reference_L) >= worth_telling_L)
            off.push_back(&a);
    std::stable_sort(off.begin(), off.end(), [](const auto* a, const auto* b) {
        return std::abs(a->sheet_L - a->reference_L) > std::abs(b->sheet_L - b->reference_L);
    });
    std::vector<std::string> lines;
    for (std::size_t k = 0; k < std::min(off.size(), most_areas); ++k) {
        const double L = off[k]->sheet_L - off[k]->reference_L;
        lines.push_back(fmt::format("{}: {:.0f} L* too {}", off[k]->area, std::abs(L), L < 0 ? "dark" : "light"));
    }
    return lines;
}

List values_list(const judge::Verdicts& v) {
    List list{"values", "Values", agreement_text(v.values), {}};
    list.before = v.values.has_reference ? list.before + ". Kappa 1 is full agreement, 0 no better than chance."
                                         : "The plan has no reference to compare with.";
    for (std::size_t k = 0; k < v.values.groups.size(); ++k) {
        const judge::GroupValues& g = v.values.groups[k];
        list.items.push_back(fmt::format("{}, {:.0f} to {:.0f} L*: {:.0f} % of the reference, {:.0f} % of the sheet",
                                         reference::group_word(static_cast<int>(k), static_cast<int>(v.values.groups.size())), g.from_L,
                                         g.to_L, 100 * g.reference_share, 100 * g.sheet_share));
    }
    for (const std::string& line : areas_off(v.values))
        list.items.push_back(line);
    return list;
}

List advice_list(const judge::Verdicts& v) {
    List list{"advice", "What would mend it", "", {}, true};
    const bool unmet = std::any_of(v.wants.begin(), v.wants.end(), [](const auto& w) { return !w.met; });
    if (!v.advice)
        list.before = unmet ? "Not tried. With --advise, rehearse tries small changes to the plan and says which of them "
                              "come nearer to the edges you want."
                      : v.wants.empty() ? "The plan wants no edge, so nothing was tried."
                                        : "Every edge is as wanted.";
    else if (v.advice->empty())
        list.before = unmet ? "Small changes were tried; none came nearer to what is wanted." : "Nothing to mend was found.";
    else
        for (std::size_t k = 0; k < std::min(v.advice->size(), most_advice); ++k) {
            const judge::Advice& a = (*v.advice)[k];
            list.items.push_back(fmt::format("{}: {}; then {}", a.change, a.found, a.instead));
        }
    return list;
}

List warnings_list(const sheet::Record& record) {
    return {"warnings", "Warnings of the run", record.warnings.empty() ? "None." : "", record.warnings};
}

/// Printed; a picture's own height for a width of a third.
double picture_mm(const std::vector<PagePicture>& pictures, double tallest) {
    double height = tallest;
    for (const PagePicture& p : pictures)
        height = std::min(height, third_mm * p.height / p.width);
    return height;
}

struct Result {
    std::vector<PagePicture> pictures;
    PageTable edges;
    std::vector<std::vector<List>> columns; ///< three

    double height_mm(double pt, double picture_mm) const {
        double captions = 0;
        for (const PagePicture& p : pictures)
            captions = std::max(captions, lines_of(characters(p.name + p.caption) + 2, third_mm, pt));
        const double rows = std::ceil(static_cast<double>(pictures.size()) / 3);
        double below = 0;
        for (const auto& column : columns) {
            double sum = 0;
            for (const List& list : column)
                sum += list.height_mm(third_mm, pt);
            below = std::max(below, sum);
        }
        return 2.4 * line_mm(pt) + rows * (picture_mm + captions * line_mm(pt) + 3.5) + 2.2 * line_mm(pt) +
               edges.height_mm(printed_width_mm, pt) + below;
    }
};

/// Pictures as large as they may be with the least letters; then the letters.
std::pair<double, double> sizes(const Result& result) {
    double picture = 0;
    for (double tall = tallest_mm; tall >= shortest_mm; tall -= 2) {
        picture = picture_mm(result.pictures, tall);
        if (result.height_mm(small_type_pt, picture) <= printed_height_mm)
            break;
    }
    return {type_pt([&](double type) { return result.height_mm(type, picture); }), picture};
}

void write_picture(Html& h, const PagePicture& p) {
    h.inside("figure", {}, [&] {
        h.single("img", {{"src", p.source},
                         {"alt", p.alt},
                         {"width", fmt::format("{}", p.width)},
                         {"height", fmt::format("{}", p.height)}});
        h.inside("figcaption", {}, [&] {
            h.element("b", {}, p.name);
            h.text(", " + p.caption);
        });
    });
}

} // namespace

void write_result_page(Html& h, const PageInputs& in, const std::string& title) {
    const judge::Verdicts& v = in.verdicts;
    const Result result{page_pictures(in), edge_table(in.plan, v),
                        {{values_list(v)}, {marks_list(v), warnings_list(in.record)}, {advice_list(v)}}};
    const auto [pt, picture] = sizes(result);
    const std::string style = fmt::format("--type:{:g}pt;--picture:{:.1f}mm", pt, picture);
    h.inside("section", {{"class", "page"}, {"style", style}, {"aria-labelledby", "result"}}, [&] {
        h.element("h2", {{"id", "result"}, {"class", "title"}}, title + ": what comes of it");
        h.inside("div", {{"class", "pictures"}}, [&] {
            for (const PagePicture& p : result.pictures)
                write_picture(h, p);
        });
        const std::string wishes = wishes_text(v);
        h.element("h2", {}, wishes.empty() ? "Edges found" : "Edges: " + wishes);
        result.edges.write(h);
        h.inside("div", {{"class", "three"}}, [&] {
            for (const auto& column : result.columns)
                h.inside("div", {}, [&] {
                    for (const List& list : column)
                        list.write(h);
                });
        });
    });
}

} // namespace tidemark::report
