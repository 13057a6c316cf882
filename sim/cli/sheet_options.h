/// Sizes and places in options: a sheet, a part of a picture.
#pragma once
#include "reference/crop.h"
#include "reference/picture_masses.h"

#include <optional>
#include <string>
#include <vector>

namespace tidemark::cli {

/// Numbers with one of `separators` between each and the next, such as "380x280" with "x"; nothing else around them.
std::optional<std::vector<double>> numbers(const std::string& text, const std::string& separators);

[[noreturn]] void refuse(const std::string& option, const std::string& text, const std::string& allowed);

/// "380x280". Errors: BadInput naming --sheet-mm.
reference::SheetSize sheet_from(const std::string& text);

/// "0,0,640x480" in pixels of the whole picture; empty: the largest in the middle. A sheet of no width is one that follows
/// the crop. Errors: BadInput naming --crop.
reference::Crop crop_from(const std::string& text, const reference::SheetSize&, int width, int height);

} // namespace tidemark::cli
