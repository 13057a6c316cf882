/// All that a key does: one table, by which keys are obeyed and the page of keys is written.
#pragma once
#include <SDL.h>

#include <optional>
#include <vector>

namespace tidemark::viewer {

enum class Do {
    look_now, look_dried, look_values, look_groups, look_water, mark,
    compare, with_before, edges, glass,
    play, pace_1, pace_10, pace_60, earlier, later, act_before, act_after, to_start, to_end,
    fit, as_on_paper, closer, farther, pan_left, pan_right, pan_up, pan_down, curtain_left, curtain_right,
    add_act, act_sooner, act_later, let_go, keep, drop, undo, redo, save, save_as, save_sheet, read_again,
    in_class, keys, larger_text, smaller_text, surroundings, start_page, close
};

struct Command {
    Do what;
    const char* key;      ///< as the page says it
    SDL_Keycode code;
    Uint16 held;          ///< KMOD_CTRL, KMOD_SHIFT, KMOD_ALT; 0: none of them
    const char* words;    ///< what it does; nullptr: another key for the one before it
    const char* group;    ///< heading on the page
};
const std::vector<Command>& commands();
std::optional<Do> command_of(const SDL_KeyboardEvent&);
const char* key_of(Do); ///< as the page says it

} // namespace tidemark::viewer
