#include "viewer/app.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "colour/lab.h"
#include "grid/problem.h"

namespace tidemark::viewer {

namespace {

constexpr int gap = 24; ///< pixels around and between pictures

void check(bool fine, const char* what) {
    if (!fine)
        throw grid::IoError(fmt::format("the window: {}: {}", what, SDL_GetError()));
}

} // namespace

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

std::vector<SDL_Rect> places(const std::vector<SDL_Point>& sizes, int width, int height) {
    const int n = static_cast<int>(sizes.size());
    const int share = std::max(1, (width - (n + 1) * gap) / n), tall = std::max(1, height - 2 * gap);
    std::vector<SDL_Rect> all;
    for (int k = 0; k < n; ++k) {
        const double scale = std::min(static_cast<double>(share) / sizes[k].x, static_cast<double>(tall) / sizes[k].y);
        const int w = std::max(1, static_cast<int>(std::lround(sizes[k].x * scale)));
        const int h = std::max(1, static_cast<int>(std::lround(sizes[k].y * scale)));
        all.push_back({gap + k * (share + gap) + (share - w) / 2, gap + (tall - h) / 2, w, h});
    }
    return all;
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

App::Video::Video() { check(SDL_InitSubSystem(SDL_INIT_VIDEO) == 0, "no screen"); }
App::Video::~Video() { SDL_QuitSubSystem(SDL_INIT_VIDEO); }

App::App(std::vector<grid::Picture> pictures, int width, int height, bool hidden) : pictures_(std::move(pictures)) {
    const Uint32 flags = SDL_WINDOW_RESIZABLE | (hidden ? SDL_WINDOW_HIDDEN : SDL_WINDOW_SHOWN);
    window_.reset(
        SDL_CreateWindow("tidemark", SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED, width, height, flags));
    check(window_ != nullptr, "can't be opened");
    renderer_.reset(SDL_CreateRenderer(window_.get(), -1, SDL_RENDERER_SOFTWARE));
    check(renderer_ != nullptr, "can't be drawn in");
    shown_.resize(pictures_.size());
}

bool App::on_event(const SDL_Event& event) {
    if (event.type == SDL_QUIT)
        return false;
    if (event.type != SDL_KEYDOWN)
        return true;
    const SDL_Keycode key = event.key.keysym.sym;
    if (key == SDLK_g)
        greys_ = !greys_;
    return key != SDLK_ESCAPE && key != SDLK_q;
}

void App::remake(Shown& shown, const grid::Picture& picture, const SDL_Rect& place) {
    const bool same_size = shown.texture && shown.place.w == place.w && shown.place.h == place.h;
    shown.place = place;
    if (same_size && shown.greys == greys_)
        return;
    grid::Picture fitted = grid::resized(picture, place.w, place.h);
    if (greys_)
        fitted = greys_of(std::move(fitted));
    shown.texture.reset(
        SDL_CreateTexture(renderer_.get(), SDL_PIXELFORMAT_RGB24, SDL_TEXTUREACCESS_STATIC, place.w, place.h));
    check(shown.texture != nullptr, "a picture");
    check(SDL_UpdateTexture(shown.texture.get(), nullptr, fitted.rgb.data(), 3 * place.w) == 0, "a picture");
    shown.greys = greys_;
}

void App::draw() {
    int width = 0, height = 0;
    check(SDL_GetRendererOutputSize(renderer_.get(), &width, &height) == 0, "its size");
    std::vector<SDL_Point> sizes;
    for (const grid::Picture& p : pictures_)
        sizes.push_back({p.width, p.height});
    const std::vector<SDL_Rect> where = places(sizes, width, height);
    SDL_SetRenderDrawColor(renderer_.get(), ground, ground, ground, SDL_ALPHA_OPAQUE);
    SDL_RenderClear(renderer_.get());
    for (std::size_t k = 0; k < pictures_.size(); ++k) {
        remake(shown_[k], pictures_[k], where[k]);
        SDL_RenderCopy(renderer_.get(), shown_[k].texture.get(), nullptr, &shown_[k].place);
    }
}

void App::show() {
    draw();
    SDL_RenderPresent(renderer_.get());
}

grid::Picture App::seen() {
    draw();
    grid::Picture p;
    check(SDL_GetRendererOutputSize(renderer_.get(), &p.width, &p.height) == 0, "its size");
    p.rgb.resize(3 * static_cast<std::size_t>(p.width) * static_cast<std::size_t>(p.height));
    // Before present: afterwards the contents are undefined.
    check(SDL_RenderReadPixels(renderer_.get(), nullptr, SDL_PIXELFORMAT_RGB24, p.rgb.data(), 3 * p.width) == 0,
          "its picture");
    return p;
}

} // namespace tidemark::viewer
