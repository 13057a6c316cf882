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
        const double scale = std::min(1.0 * share / sizes[k].x, 1.0 * tall / sizes[k].y);
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

App::App(std::vector<grid::Picture> pictures, int width, int height, bool hidden)
    : pictures_(std::move(pictures)),
      window_(SDL_CreateWindow("tidemark", SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED, width, height,
                               SDL_WINDOW_RESIZABLE | (hidden ? SDL_WINDOW_HIDDEN : SDL_WINDOW_SHOWN)),
              SDL_DestroyWindow),
      renderer_(window_ ? SDL_CreateRenderer(window_.get(), -1, SDL_RENDERER_SOFTWARE) : nullptr,
                SDL_DestroyRenderer) {
    check(renderer_ != nullptr, "can't be opened");
}

SDL_Point App::size() const {
    SDL_Point p{};
    check(SDL_GetRendererOutputSize(renderer_.get(), &p.x, &p.y) == 0, "its size");
    return p;
}

bool App::on_event(const SDL_Event& event) {
    if (event.type == SDL_QUIT)
        return false;
    const SDL_Keycode key = event.type == SDL_KEYDOWN ? event.key.keysym.sym : SDLK_UNKNOWN;
    if (key == SDLK_g)
        greys_ = !greys_;
    if (key == SDLK_g || event.type == SDL_WINDOWEVENT)
        show();
    return key != SDLK_ESCAPE && key != SDLK_q;
}

void App::draw() {
    std::vector<SDL_Point> sizes;
    for (const grid::Picture& p : pictures_)
        sizes.push_back({p.width, p.height});
    const std::vector<SDL_Rect> where = places(sizes, size().x, size().y);
    SDL_SetRenderDrawColor(renderer_.get(), ground, ground, ground, SDL_ALPHA_OPAQUE);
    SDL_RenderClear(renderer_.get());
    for (std::size_t k = 0; k < pictures_.size(); ++k) {
        grid::Picture fitted = grid::resized(pictures_[k], where[k].w, where[k].h);
        if (greys_)
            fitted = greys_of(std::move(fitted));
        const std::unique_ptr<SDL_Texture, decltype(&SDL_DestroyTexture)> texture(
            SDL_CreateTexture(renderer_.get(), SDL_PIXELFORMAT_RGB24, SDL_TEXTUREACCESS_STATIC, fitted.width,
                              fitted.height),
            SDL_DestroyTexture);
        check(texture && SDL_UpdateTexture(texture.get(), nullptr, fitted.rgb.data(), 3 * fitted.width) == 0 &&
                  SDL_RenderCopy(renderer_.get(), texture.get(), nullptr, &where[k]) == 0 &&
                  SDL_RenderFlush(renderer_.get()) == 0,
              "a picture");
    }
}

void App::show() {
    draw();
    SDL_RenderPresent(renderer_.get());
}

grid::Picture App::seen() {
    draw();
    grid::Picture p{size().x, size().y, {}};
    p.rgb.resize(3 * static_cast<std::size_t>(p.width) * static_cast<std::size_t>(p.height));
    // Before present: afterwards the contents are undefined.
    check(SDL_RenderReadPixels(renderer_.get(), nullptr, SDL_PIXELFORMAT_RGB24, p.rgb.data(), 3 * p.width) == 0,
          "its picture");
    return p;
}

} // namespace tidemark::viewer
