#include "plan/area_at_detail.h"

#include "grid/problem.h"

#include <algorithm>

namespace tidemark::plan {

namespace {

constexpr int not_met = -2, open = -3; // in node_of

grid::Field<float> on_cells(const grid::GreyPicture& mask, int nx, int ny) {
    grid::Field<float> out(nx, ny, 1.0f);
    if (mask.value.empty())
        return out;
    const grid::GreyPicture small = grid::resized(mask, nx, ny);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            out(i, j) = small.at(i, j);
    return out;
}

float share(double distance_m, double ramp_m) {
    return static_cast<float>(std::clamp(0.5 - distance_m / ramp_m, 0.0, 1.0));
}

Span of_cells(const grid::Field<float>& mask, const Place& p) {
    if (p.cells == 1)
        return {mask(p.i, p.j), mask(p.i, p.j)};
    Span span{1, 0};
    for (int j = p.j; j < std::min(p.j + p.cells, mask.ny()); ++j)
        for (int i = p.i; i < std::min(p.i + p.cells, mask.nx()); ++i)
            span = {std::min(span.least, mask(i, j)), std::max(span.most, mask(i, j))};
    return span;
}

Span joined(SetWord word, Span a, const Span& b) {
    if (word == SetWord::all)
        return {std::max(a.least, b.least), std::max(a.most, b.most)};
    if (word == SetWord::both)
        return {std::min(a.least, b.least), std::min(a.most, b.most)};
    return {std::min(a.least, 1 - b.most), std::min(a.most, 1 - b.least)};
}

} // namespace

AreaNodes::AreaNodes(const Plan& plan, int area, int nx, int ny) {
    std::vector<int> node_of(plan.areas.size(), not_met);
    add(plan, area, nx, ny, node_of);
}

int AreaNodes::add(const Plan& plan, int area, int nx, int ny, std::vector<int>& node_of) {
    if (area < 0)
        return whole_sheet;
    if (node_of[area] == open)
        throw grid::InternalError("area " + plan.areas[area].name + " is made of itself");
    if (node_of[area] != not_met)
        return node_of[area];
    node_of[area] = open;
    Node node{&plan.areas[area], {}, {}};
    if (const AreaSet* set = std::get_if<AreaSet>(&node.area->form)) {
        for (const int part : set->areas)
            node.parts.push_back(add(plan, part, nx, ny, node_of));
    } else if (std::holds_alternative<Mask>(node.area->form)) {
        node.mask = on_cells(node.area->mask, nx, ny);
    } else {
        hardest_edge_m_ = std::min(hardest_edge_m_, node.area->soft_m);
    }
    nodes_.push_back(std::move(node));
    return node_of[area] = static_cast<int>(nodes_.size()) - 1;
}

AreaNear::AreaNear(const AreaNodes& area, const Place& place, double ramp_m) {
    for (const AreaNodes::Node& node : area.nodes()) {
        const auto near = [&](const auto& form) -> Form {
            using F = std::decay_t<decltype(form)>;
            if constexpr (std::is_same_v<F, Mask>)
                return &node.mask;
            else if constexpr (std::is_same_v<F, Polygon> || std::is_same_v<F, Line>)
                return NearOutline(form, place.x_m, place.y_m, place.reach_m);
            else
                return &form;
        };
        nodes_.push_back({std::visit(near, node.area->form), std::max(node.area->soft_m, ramp_m), &node.parts});
        known_.push_back(value(nodes_.back(), place));
        if (known_.back().is_one_value())
            nodes_.back().form = known_.back();
    }
    whole_ = known_.back();
}

Span AreaNear::at(const Place& place) {
    for (std::size_t k = 0; k < nodes_.size(); ++k)
        known_[k] = value(nodes_[k], place);
    return known_.back();
}

Span AreaNear::value(const Node& node, const Place& p) const {
    const auto along = [&](double distance_m) -> Span {
        return {share(distance_m + p.reach_m, node.ramp_m), share(distance_m - p.reach_m, node.ramp_m)};
    };
    const auto of_form = [&](const auto& form) -> Span {
        using F = std::decay_t<decltype(form)>;
        if constexpr (std::is_same_v<F, Span>) {
            return form;
        } else if constexpr (std::is_same_v<F, const grid::Field<float>*>) {
            return of_cells(*form, p);
        } else if constexpr (std::is_same_v<F, const AreaSet*>) {
            const auto part = [&](int k) { return k < 0 ? Span{} : known_[k]; };
            Span span = part(node.parts->front());
            for (std::size_t k = 1; k < node.parts->size(); ++k)
                span = joined(form->word, span, part((*node.parts)[k]));
            return span;
        } else if constexpr (std::is_same_v<F, NearOutline>) {
            return along(form.distance_m(p.x_m, p.y_m));
        } else {
            return along(distance_m(*form, p.x_m, p.y_m));
        }
    };
    return std::visit(of_form, node.form);
}

} // namespace tidemark::plan
