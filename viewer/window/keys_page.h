/// The page that lists all keys, written from the table by which they are obeyed (commands.h).
#pragma once
#include "viewer/window/ui.h"

namespace tidemark::viewer {

void draw_keys(Ui&, const Rect& all, float& scroll);

} // namespace tidemark::viewer
