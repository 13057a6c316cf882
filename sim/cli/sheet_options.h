/// Sizes and places in options: a sheet, a part of a picture.
#pragma once
#include "reference/crop.h"

#include <optional>
#include <string>
#include <vector>

namespace tidemark::cli {

struct Sheet {
    double width_mm = 0, height_mm = 0;
};

/// Numbers with one of `separators` between each and the next, such as "380x280" with "x"; nothing else around them.
std::optional<std::vector<double>> numbers(const std::string& text, const std::string& separators);

[[noreturn]] void refuse(const std::string& option, const std::string& text, const std::string& allowed);

/// "380x280". Errors: BadInput naming --sheet-mm.
Sheet sheet_from(const std::string& text);

/// "0,0,640x480" in pixels of the whole picture; empty: the largest in the middle. Errors: BadInput naming --crop.
reference::Crop crop_from(const std::string& text, const Sheet&, int width, int height);

} // namespace tidemark::cli
