#include "viewer/window/two_pictures.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "colour/lab.h"
#include "grid/problem.h"

namespace tidemark::viewer {

std::filesystem::path sheet_file(const std::filesystem::path& path) {
    std::error_code error;
    if (!std::filesystem::exists(path, error))
        throw grid::BadInput(path.string(), "no such file or folder");
    if (!std::filesystem::is_directory(path, error))
        return path;
    if (!std::filesystem::exists(path / "sheet.png", error))
        throw grid::BadInput(path.string(), "no sheet.png in this folder", "a folder that tidemark rehearse wrote");
    return path / "sheet.png";
}

grid::Picture greys_of(grid::Picture p) {
    for (std::size_t k = 0; k + 2 < p.rgb.size(); k += 3) {
        const float lstar = colour::lstar_from_srgb({p.rgb[k], p.rgb[k + 1], p.rgb[k + 2]});
        const double code = colour::srgb_from_linear(colour::Y_from_lstar(lstar) / 100);
        const auto grey = static_cast<std::uint8_t>(std::lround(255 * std::clamp(code, 0.0, 1.0)));
        std::fill_n(p.rgb.begin() + static_cast<std::ptrdiff_t>(k), 3, grey);
    }
    return p;
}

void TwoPictures::open(std::vector<grid::Picture> pictures) {
    pictures_ = std::move(pictures);
    make_pixels();
    view = {};
    view.of_sheet(pictures_.front().width, pictures_.front().height);
    ++edition_;
}

void TwoPictures::make_pixels() {
    greys_made_ = greys;
    pixels_.clear();
    for (const grid::Picture& original : pictures_) {
        const grid::Picture p = greys ? greys_of(original) : original;
        Pixels px{p.width, p.height, {}};
        px.rgba.resize(p.rgb.size() / 3 * 4, 255);
        for (std::size_t k = 0; k < p.rgb.size() / 3; ++k)
            std::copy_n(p.rgb.begin() + static_cast<std::ptrdiff_t>(3 * k), 3,
                        px.rgba.begin() + static_cast<std::ptrdiff_t>(4 * k));
        pixels_.push_back(std::move(px));
    }
}

void TwoPictures::draw(Ui& ui, SDL_Renderer* renderer, const Rect& all) {
    if (pictures_.empty())
        return;
    const float em = ui.em, top = std::round(2.9F * em), gap = std::round(0.4F * em);
    fill(ui, {all.x0, all.y0, all.x1, all.y0 + top}, ui.theme.ground);
    float x = all.x0 + 0.6F * em;
    const float y = all.y0 + 0.95F * em;
    if (word(ui, "‹ plans", x, y, false, nullptr, "first page"))
        wants_to_leave = true;
    if (word(ui, "colours", x, y, !greys))
        greys = false;
    if (word(ui, "values", x, y, greys, "v"))
        greys = true;
    if (greys != greys_made_)
        make_pixels();
    const Rect r{all.x0, all.y0 + top, all.x1, all.y1};
    const bool two = pictures_.size() > 1;
    const Rect first{r.x0, r.y0, two ? std::floor((r.x0 + r.x1 - gap) / 2) : r.x1, r.y1};
    const Rect second{first.x1 + gap, r.y0, first.x1 + gap + first.width(), r.y1};
    view.place(first);
    const Press p = press(ui, "sheet", r, false);
    const ImGuiIO& io = ImGui::GetIO();
    if (p.hovered && io.MouseWheel != 0) {
        const float dx = two && second.holds(io.MousePos.x, io.MousePos.y) ? second.x0 - first.x0 : 0;
        view.zoom(std::pow(1.18, static_cast<double>(io.MouseWheel)), io.MousePos.x - dx, io.MousePos.y);
    }
    if (p.held && ImGui::IsMouseDragging(0, 3))
        view.pan(io.MouseDelta.x, io.MouseDelta.y);
    const Key key{r.width(), r.height(), view.px_per_mm(), view.middle().x, view.middle().y, greys, edition_};
    if (!(key == drawn_) || shown_.texture() == nullptr) {
        canvas_.size(static_cast<int>(r.width()), static_cast<int>(r.height()), ui.theme.mat);
        draw_sheet(canvas_, r, view, first, pixels_[0], first.x0, first.x1);
        if (two) {
            // A reference of other proportions keeps them: its own view, as far in as the sheet's.
            SheetView other;
            const double w = pixels_[1].width, h = pixels_[1].height;
            other.of_sheet(w, h);
            other.place(second);
            SheetView fitted = view;
            fitted.fit();
            const double factor = view.px_per_mm() / fitted.px_per_mm();
            other.look_at({view.middle().x / view.width_mm() * w, view.middle().y / view.height_mm() * h},
                          second.width() / (other.px_per_mm() * factor));
            draw_sheet(canvas_, r, other, second, pixels_[1], second.x0, second.x1);
        }
        shown_.take(renderer, canvas_);
        drawn_ = key;
    }
    ui.paint->AddImage(shown_.texture(), ImVec2(r.x0, r.y0), ImVec2(r.x1, r.y1));
}

} // namespace tidemark::viewer
