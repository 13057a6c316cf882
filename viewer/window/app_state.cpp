// What the window says of itself, for scripts and tests.
#include "viewer/window/app.h"

namespace tidemark::viewer {

const char* word_of(Page p) {
    switch (p) {
    case Page::start: return "start";
    case Page::desk: return "desk";
    case Page::making: return "making";
    case Page::pictures: return "pictures";
    case Page::classroom: return "classroom";
    case Page::keys: return "keys";
    }
    return "";
}

std::map<std::string, std::string> App::state() const {
    std::map<std::string, std::string> s;
    if (page_ == Page::desk || (page_ == Page::keys && behind_keys_ == Page::desk))
        s = desk_.state();
    if (page_ == Page::classroom)
        s = classroom_.state();
    if (page_ == Page::making)
        s = making_.state();
    if (page_ == Page::pictures)
        s["greys"] = pictures_.greys ? "yes" : "no";
    s["page"] = word_of(page_);
    s["text percent"] = std::to_string(settings_.text_percent);
    s["surroundings"] = settings_.dark ? "dark" : "light";
    s["full screen"] = full_screen_ ? "yes" : "no";
    s["focus"] = ui_.focus.empty() ? "none" : ui_.focus;
    if (!s.contains("note"))
        s["note"] = note_;
    return s;
}

} // namespace tidemark::viewer
