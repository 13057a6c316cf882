#include "viewer/window/app.h"

#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <new>

#include "grid/files.h"
#include "grid/problem.h"
#include "viewer/window/attempt.h"

namespace tidemark::viewer {

namespace {

constexpr float em_px = 16.5F; ///< running text at 100 %, on a screen of 96 dpi

void check(bool fine, const char* what) {
    if (!fine)
        throw grid::IoError(fmt::format("the window: {}: {}", what, SDL_GetError()));
}

/// The library takes what it is given without a look: where there is no memory it would write to nowhere.
void* memory_or_throw(std::size_t bytes, void*) {
    if (void* p = std::malloc(bytes == 0 ? 1 : bytes))
        return p;
    throw std::bad_alloc();
}
void give_back(void* p, void*) { std::free(p); }

ImGuiContext* begin_imgui() {
    ImGui::SetAllocatorFunctions(memory_or_throw, give_back);
    ImGuiContext* context = ImGui::CreateContext();
    ImGui::SetCurrentContext(context);
    ImGuiStyle& style = ImGui::GetStyle();
    style.WindowPadding = ImVec2(0, 0);
    style.WindowBorderSize = 0;
    style.WindowRounding = style.FrameRounding = 0;
    style.AntiAliasedLines = style.AntiAliasedLinesUseTex = style.AntiAliasedFill = false;
    return context;
}

double screen_scale(SDL_Window* window) {
    float dpi = 96;
    if (SDL_GetDisplayDPI(std::max(0, SDL_GetWindowDisplayIndex(window)), nullptr, &dpi, nullptr) != 0)
        return 1;
    return std::clamp(std::round(4.0 * static_cast<double>(dpi) / 96) / 4, 1.0, 3.0);
}

} // namespace

App::Video::Video() {
    SDL_SetHint(SDL_HINT_VIDEO_ALLOW_SCREENSAVER, "1");
    check(SDL_InitSubSystem(SDL_INIT_VIDEO) == 0, "no screen");
}

void App::EndImGui::operator()(ImGuiContext* context) const { ImGui::DestroyContext(context); }

App::App(AppOptions options)
    : memory_(options.memory ? *options.memory : Memory()),
      settings_(memory_.settings()),
      presets_(materials::Presets::read(grid::presets_folder())),
      window_(SDL_CreateWindow("tidemark",
                               SDL_WINDOWPOS_CENTERED,
                               SDL_WINDOWPOS_CENTERED,
                               options.width > 0 ? options.width : settings_.window_width,
                               options.height > 0 ? options.height : settings_.window_height,
                               SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI |
                                   (options.hidden ? SDL_WINDOW_HIDDEN : SDL_WINDOW_SHOWN)),
              SDL_DestroyWindow),
      renderer_(window_ ? SDL_CreateRenderer(window_.get(), -1, SDL_RENDERER_SOFTWARE) : nullptr, SDL_DestroyRenderer),
      imgui_((check(renderer_ != nullptr, "can't be opened"), begin_imgui())),
      joint_(window_.get(), renderer_.get()),
      from_(options.from),
      desk_(presets_,
            {.cell_m = 1e-3 * (options.cell_mm > 0 ? options.cell_mm : settings_.cell_mm),
             .only_draft = options.only_draft,
             .draft_cell_m = 1e-3 * options.draft_cell_mm,
             .reel_bytes = static_cast<std::size_t>(settings_.memory_mb) << 20,
             .news = news_.teller(),
             .from = options.from}),
      recovery_(memory_.recovery_folder()) {
    hidden_ = options.hidden;
    scale_ = options.ui_scale > 0 ? options.ui_scale : options.hidden ? 1 : screen_scale(window_.get());
    desk_.screen_px_mm = (settings_.screen_dpi > 0 ? settings_.screen_dpi : 96 * scale_) / 25.4;
    ui_.theme = settings_.dark ? dark_theme() : light_theme();
    if (settings_.maximised && options.width == 0 && !options.hidden)
        SDL_MaximizeWindow(window_.get());
    SDL_SetWindowMinimumSize(window_.get(), 640, 420);
    SDL_EventState(SDL_DROPFILE, SDL_ENABLE);
    desk_.cautions = making_.cautions = materials::read_cautions(grid::presets_folder());
    start_.look(grid::presets_folder());
    go_to(Page::start);
    set_letters(); // here, since they take longer than a frame should
}

App::~App() {
    classroom_.close();
    desk_.studio.stop();
}

SDL_Point App::size() const {
    SDL_Point p{};
    check(SDL_GetRendererOutputSize(renderer_.get(), &p.x, &p.y) == 0, "its size");
    return p;
}

void App::resize(int width, int height) { SDL_SetWindowSize(window_.get(), width, height); }

void App::say(const std::string& what, bool wrong) {
    note_ = what, note_is_wrong_ = wrong;
    if (page_ == Page::desk)
        desk_.say(what, wrong);
    if (page_ == Page::making)
        making_.say(what, wrong);
}

void App::set_letters() {
    const double large = page_ == Page::classroom ? 1.45 : 1;
    const auto em = static_cast<float>(std::round(em_px * scale_ * large * settings_.text_percent / 100));
    if (ui_.body == nullptr || em != ui_.em) {
        load_letters(ui_, em);
        joint_.take_letters();
    }
}

void App::open(const std::filesystem::path& path, const std::filesystem::path& reference) {
    if (!reference.empty()) { // two pictures side by side
        std::vector<grid::Picture> pictures{grid::read_picture(sheet_file(path))};
        pictures.push_back(grid::read_picture(reference));
        pictures_.open(std::move(pictures));
        return go_to(Page::pictures);
    }
    const Opened opened = what_is(path);
    switch (opened.is) {
    case Opened::Is::nothing: throw grid::BadInput(path.string(), opened.why_not);
    case Opened::Is::picture:
        making_.open(opened.path, presets_, news_.teller());
        return go_to(Page::making);
    case Opened::Is::results:
        pictures_.open({grid::read_picture(sheet_file(opened.path))});
        return go_to(Page::pictures);
    case Opened::Is::lesson:
        classroom_.open(plan::read_lesson(opened.path, from_), presets_, news_.teller(), from_);
        return go_to(Page::classroom);
    case Opened::Is::plan:
        desk_.open(opened.path);
        memory_.add_recent(opened.path);
        return go_to(Page::desk);
    }
}

void App::go_to(Page page) {
    if (page == Page::keys && page_ != Page::keys)
        behind_keys_ = page_;
    if (page_ == Page::classroom && page != Page::classroom && page != Page::keys) {
        classroom_.close();
        set_full_screen(false);
    }
    page_ = page;
    ui_.focus.clear();
    fresh_ = 3;
    if (page == Page::start) {
        start_.recent.clear();
        for (const auto& plan : memory_.recent())
            start_.recent.push_back({plan.filename() == "plan.toml" ? plan.parent_path().filename().string()
                                                                    : plan.filename().string(),
                                     plan.parent_path().string(), plan});
        start_.left_over = recovery_.left_over();
    }
}

void App::set_full_screen(bool on) {
    if (on == full_screen_)
        return;
    full_screen_ = on;
    if (!hidden_)
        SDL_SetWindowFullscreen(window_.get(), on ? SDL_WINDOW_FULLSCREEN_DESKTOP : 0);
}

void App::remember() {
    if (hidden_)
        return;
    int w = 0, h = 0;
    SDL_GetWindowSize(window_.get(), &w, &h);
    settings_.maximised = (SDL_GetWindowFlags(window_.get()) & SDL_WINDOW_MAXIMIZED) != 0;
    if (!settings_.maximised && !full_screen_)
        settings_.window_width = w, settings_.window_height = h;
    memory_.save(settings_);
}

void App::frame(double dt_s) {
    set_letters();
    joint_.begin(dt_s);
    if (page_ == Page::desk || (page_ == Page::keys && behind_keys_ == Page::desk))
        desk_.update(dt_s);
    if (page_ == Page::classroom)
        classroom_.update(dt_s);
    if (desk_.is_open())
        recovery_.keep_if_due(desk_.studio.document());
    ImGui::NewFrame();
    const SDL_Point p = size();
    ImGui::SetNextWindowPos(ImVec2(0, 0));
    ImGui::SetNextWindowSize(ImVec2(static_cast<float>(p.x), static_cast<float>(p.y)));
    ImGui::Begin("page", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NoNav);
    ui_.paint = ImGui::GetWindowDrawList();
    ui_.controls.begin();
    draw_page();
    ImGui::End();
    ImGui::Render();
    ui_.enter = false;
    ui_.nudge = 0;
    ImGui::GetIO().MouseWheel = ImGui::GetIO().MouseWheelH = 0;
    const Colour c = ui_.theme.ground;
    SDL_SetRenderDrawColor(renderer_.get(), c & 0xFF, (c >> 8) & 0xFF, (c >> 16) & 0xFF, SDL_ALPHA_OPAQUE);
    SDL_RenderClear(renderer_.get());
    joint_.draw(*ImGui::GetDrawData());
    if (fresh_ > 0)
        --fresh_;
    after_page();
}

void App::present() { SDL_RenderPresent(renderer_.get()); }

grid::Picture App::seen() {
    grid::Picture p{size().x, size().y, {}};
    p.rgb.resize(3 * static_cast<std::size_t>(p.width) * static_cast<std::size_t>(p.height));
    // Before present: afterwards the contents are undefined.
    check(SDL_RenderReadPixels(renderer_.get(), nullptr, SDL_PIXELFORMAT_RGB24, p.rgb.data(), 3 * p.width) == 0,
          "its picture");
    return p;
}

bool App::restless() const {
    return fresh_ > 0 || (page_ == Page::desk && (desk_.moving() || desk_.opening())) || (page_ == Page::making && making_.moving()) || (page_ == Page::classroom && classroom_.moving());
}

} // namespace tidemark::viewer
