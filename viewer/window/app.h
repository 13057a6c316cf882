/// The window: one page at a time, by hand or by script.
///
///   App app(options);
///   app.open(path);
///   while (app.frame(dt_s)) app.present(), wait for events and give them to app.on_event()
///
/// `controls()` names what can be pressed, `state()` what has been chosen, for scripts and tests. Errors: IoError when
/// SDL can't open a window, BadInput from open() for what can't be opened.
#pragma once
#include <SDL.h>

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>

#include "grid/picture.h"
#include "materials/presets.h"
#include "viewer/window/canvas.h"
#include "viewer/window/classroom.h"
#include "viewer/window/commands.h"
#include "viewer/window/desk.h"
#include "viewer/window/joint.h"
#include "viewer/window/keys_page.h"
#include "viewer/window/making_page.h"
#include "viewer/window/news.h"
#include "viewer/window/start_page.h"
#include "viewer/window/two_pictures.h"
#include "viewer/window/ui.h"
#include "viewer/studio/opened.h"
#include "viewer/studio/recovery.h"
#include "viewer/studio/settings.h"

struct ImGuiContext;

namespace tidemark::viewer {

struct AppOptions {
    int width = 0, height = 0;   ///< 0: as remembered
    bool hidden = false;         ///< for pictures and tests
    double ui_scale = 0;         ///< pixels a unit of design; 0: from the screen
    double cell_mm = 0;          ///< of the fine sheet; 0: as remembered
    double draft_cell_mm = 0;    ///< 0: as the sheet's size has it
    bool only_draft = false;
    plan::FilesFrom from = plan::FilesFrom::folder; ///< what a plan or lesson names
    std::optional<Memory> memory{}; ///< none: the XDG places
};

enum class Page { start, desk, making, pictures, classroom, keys };
const char* word_of(Page);

class App {
  public:
    explicit App(AppOptions);
    ~App();
    App(const App&) = delete;
    App& operator=(const App&) = delete;

    void open(const std::filesystem::path&, const std::filesystem::path& reference = {});
    bool on_event(const SDL_Event&);     ///< false: the window is to be closed
    void frame(double dt_s);             ///< draws, without showing
    void present();
    grid::Picture seen();                ///< what the last frame() drew; before present()
    bool restless() const;               ///< needs frames without events: it plays, or something was just pressed
    bool due() const { return page_ == Page::desk; } ///< once a second: a recovery copy may be due
    void resize(int width, int height);
    const Controls& controls() const { return ui_.controls; }
    std::map<std::string, std::string> state() const;
    bool closing() const { return closing_; }
    Desk& desk() { return desk_; }
    Page page() const { return page_; }
    const SheetView& view() const { return page_ == Page::making ? making_.view : desk_.view; } ///< of the sheet or picture
    SDL_Point size() const;
    void say(const std::string&, bool wrong = false);

  private:
    struct Video {
        Video();
        ~Video() { SDL_QuitSubSystem(SDL_INIT_VIDEO); }
    };
    struct EndImGui {
        void operator()(ImGuiContext*) const;
    };
    Memory memory_;
    Settings settings_;
    materials::Presets presets_;
    Video video_;
    std::unique_ptr<SDL_Window, decltype(&SDL_DestroyWindow)> window_;
    std::unique_ptr<SDL_Renderer, decltype(&SDL_DestroyRenderer)> renderer_;
    std::unique_ptr<ImGuiContext, EndImGui> imgui_;
    Joint joint_;
    Ui ui_;
    News news_;
    double scale_ = 1;
    plan::FilesFrom from_;
    Page page_ = Page::start, behind_keys_ = Page::start;
    Desk desk_;
    StartPage start_;
    MakingPage making_;
    TwoPictures pictures_;
    Classroom classroom_;
    Recovery recovery_;
    std::string note_;
    bool note_is_wrong_ = false;
    bool hidden_ = false, closing_ = false, full_screen_ = false;
    float keys_scroll_ = 0;
    int fresh_ = 3;              ///< frames still to draw for what was just pressed

    void obey(Do);
    bool use_mark(SDL_Keycode, bool shift); ///< false: it means something else
    void set_letters();
    void set_full_screen(bool);
    void go_to(Page);
    void draw_page();
    void begin_class();
    void after_page();
    void remember();
};

} // namespace tidemark::viewer
