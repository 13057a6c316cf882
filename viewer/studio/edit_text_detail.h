/// Changes of a plan's text: each gives the new text. Private to the working half.
///
/// Errors: BadInput when the text has no such place, or is written in a way that these don't know (steps as one list in one
/// line): then it is changed in an editor.
#pragma once
#include "plan/plan.h"
#include "viewer/studio/document.h"

#include <string>

namespace tidemark::viewer {

/// `where`: a step's name, "sheet", "mix.NAME", "area.NAME", "reference". An empty value takes the key away. "when.is" and its like are
/// of the inline table.
std::string with_value(const std::string& text, const plan::Plan&, const std::string& where, const std::string& key, const std::string& value);
std::optional<std::string> value_in(const std::string& text, const plan::Plan&, const std::string& where, const std::string& key);
std::string with_act_moved(const std::string& text, const plan::Plan&, int step, double to_s, const std::vector<ActSpan>& played);
std::string with_act(const std::string& text, const plan::Plan&, const NewAct&, int after_step);
std::string with_addition(const std::string& text, const plan::Plan&, const Addition&);
std::string without_act(const std::string& text, const plan::Plan&, int step);
std::string with_mix(const std::string& text, const std::string& name, const std::vector<std::pair<std::string, double>>& pigment_pct);
std::string with_area(const std::string& text, const NewArea&);
std::string with_want(const std::string& text, const std::string& first, const std::string& second, const std::string& edge);
/// Masks, orders and pictures, relative to the plan's folder.
std::vector<std::string> files_named(const std::string& text);

} // namespace tidemark::viewer
