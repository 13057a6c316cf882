#include "viewer/window/commands.h"

namespace tidemark::viewer {

const std::vector<Command>& commands() {
    constexpr const char *look = "To look", *compare = "To compare", *time = "Time", *sheet = "The sheet",
                         *plan = "The plan", *window = "The window";
    constexpr Uint16 ctrl = KMOD_CTRL, shift = KMOD_SHIFT, alt = KMOD_ALT;
    static const std::vector<Command> all{
        {Do::look_now, "n", SDLK_n, 0, "as it looks now, wet as it is", look},
        {Do::look_dried, "d", SDLK_d, 0, "as it will dry", look},
        {Do::look_values, "v", SDLK_v, 0, "its values, in greys", look},
        {Do::look_groups, "g", SDLK_g, 0, "its values in few groups", look},
        {Do::look_water, "w", SDLK_w, 0, "its water: film and moisture", look},
        {Do::glass, "i", SDLK_i, 0, "the glass under the pointer, or not", look},
        {Do::mark, "m", SDLK_m, 0, "a mark that the arrows move, Enter presses; or not", look},
        {Do::compare, "c", SDLK_c, 0, "beside the reference; a curtain; the difference; alone", compare},
        {Do::with_before, "b", SDLK_b, 0, "against the sheet before the change, or the reference", compare},
        {Do::edges, "e", SDLK_e, 0, "edges along their boundaries, or not", compare},
        {Do::curtain_left, "Ctrl left", SDLK_LEFT, ctrl, "curtain to the left", compare},
        {Do::curtain_right, "Ctrl right", SDLK_RIGHT, ctrl, "curtain to the right", compare},
        {Do::play, "space", SDLK_SPACE, 0, "play, pause", time},
        {Do::pace_1, "1", SDLK_1, 0, "play as in life", time},
        {Do::pace_10, "2", SDLK_2, 0, "play 10 times as fast", time},
        {Do::pace_60, "3", SDLK_3, 0, "play 60 times as fast", time},
        {Do::earlier, "left", SDLK_LEFT, 0, "15 seconds back", time},
        {Do::later, "right", SDLK_RIGHT, 0, "15 seconds on", time},
        {Do::act_before, ",", SDLK_COMMA, 0, "to the act before, and choose it", time},
        {Do::act_after, ".", SDLK_PERIOD, 0, "to the next act, and choose it", time},
        {Do::to_start, "Home", SDLK_HOME, 0, "to the first minute", time},
        {Do::to_end, "End", SDLK_END, 0, "to the last that is painted", time},
        {Do::fit, "f", SDLK_f, 0, "the whole sheet", sheet},
        {Do::as_on_paper, "p", SDLK_p, 0, "as large as on paper", sheet},
        {Do::closer, "+", SDLK_PLUS, 0, "closer", sheet},
        {Do::closer, "=", SDLK_EQUALS, 0, nullptr, sheet},
        {Do::closer, "+", SDLK_KP_PLUS, 0, nullptr, sheet},
        {Do::farther, "-", SDLK_MINUS, 0, "farther", sheet},
        {Do::farther, "-", SDLK_KP_MINUS, 0, nullptr, sheet},
        {Do::pan_left, "Shift left", SDLK_LEFT, shift, "what lies to the left", sheet},
        {Do::pan_right, "Shift right", SDLK_RIGHT, shift, "... to the right", sheet},
        {Do::pan_up, "Shift up", SDLK_UP, shift, "... above", sheet},
        {Do::pan_down, "Shift down", SDLK_DOWN, shift, "... below", sheet},
        {Do::add_act, "a", SDLK_a, 0, "add an act", plan},
        {Do::act_sooner, "Alt left", SDLK_LEFT, alt, "the chosen act 30 seconds sooner", plan},
        {Do::act_later, "Alt right", SDLK_RIGHT, alt, "the chosen act 30 seconds later", plan},
        {Do::let_go, "Esc", SDLK_ESCAPE, 0, "let go of what is chosen; back", plan},
        {Do::keep, "k", SDLK_k, 0, "keep the change", plan},
        {Do::drop, "x", SDLK_x, 0, "drop the change", plan},
        {Do::undo, "Ctrl z", SDLK_z, ctrl, "undo", plan},
        {Do::redo, "Ctrl y", SDLK_y, ctrl, "redo", plan},
        {Do::redo, "Ctrl Shift z", SDLK_z, ctrl | shift, nullptr, plan},
        {Do::save, "Ctrl s", SDLK_s, ctrl, "save the plan", plan},
        {Do::save_as, "Ctrl Shift s", SDLK_s, ctrl | shift, "save it as another", plan},
        {Do::save_sheet, "Ctrl e", SDLK_e, ctrl, "save the finished sheet and its tables", plan},
        {Do::read_again, "r", SDLK_r, 0, "read the plan's file again", plan},
        {Do::in_class, "F11", SDLK_F11, 0, "in class: full screen, large, no numbers", window},
        {Do::keys, "F1", SDLK_F1, 0, "this page", window},
        {Do::keys, "?", SDLK_QUESTION, 0, nullptr, window},
        {Do::keys, "?", SDLK_SLASH, shift, nullptr, window},
        {Do::larger_text, "Ctrl +", SDLK_PLUS, ctrl, "larger text", window},
        {Do::larger_text, "Ctrl +", SDLK_EQUALS, ctrl, nullptr, window},
        {Do::smaller_text, "Ctrl -", SDLK_MINUS, ctrl, "smaller text", window},
        {Do::surroundings, "l", SDLK_l, 0, "light or dark surroundings", window},
        {Do::start_page, "Ctrl o", SDLK_o, ctrl, "to the first page", window},
        {Do::close, "Ctrl q", SDLK_q, ctrl, "close", window}};
    return all;
}

std::optional<Do> command_of(const SDL_KeyboardEvent& e) {
    const auto one = [](unsigned held, unsigned either) { return (held & either) != 0 ? either : 0U; };
    const unsigned raw = e.keysym.mod;
    const unsigned held = one(raw, KMOD_CTRL) | one(raw, KMOD_SHIFT) | one(raw, KMOD_ALT);
    for (const Command& c : commands())
        if (c.code == e.keysym.sym && c.held == held)
            return c.what;
    // A sign that needs Shift on this keyboard, such as + or ?.
    for (const Command& c : commands())
        if (c.code == e.keysym.sym && (c.held | KMOD_SHIFT) == held && (c.code < SDLK_a || c.code > SDLK_z) &&
            (c.code & SDLK_SCANCODE_MASK) == 0 && c.code != SDLK_SPACE)
            return c.what;
    return std::nullopt;
}

const char* key_of(Do what) {
    for (const Command& c : commands())
        if (c.what == what)
            return c.key;
    return "";
}

} // namespace tidemark::viewer
