/// The options that say what a picture's masses are: one set for squint, draft and transfer, so that what is traced and
/// painted is what was seen.
#pragma once
#include "cli/commands.h"
#include "cli/sheet_options.h"
#include "reference/picture_masses.h"

namespace CLI {
class App;
}

namespace tidemark::cli {

/// `sheet_must` : --sheet-mm has to be given.
void add_masses_options(CLI::App&, MassesOptions&, bool sheet_must = false);

/// The part of a picture that comes onto the sheet, and what is seen in it.
struct Found {
    grid::Picture picture;
    reference::Looking how;
    reference::PictureMasses seen;
    reference::FallsAway away; ///< of the picture
    std::string note;          ///< on the picture's file, for standard error; mostly empty
};

/// All that can be said of options without reading the picture. Errors: BadInput naming the option.
reference::Looking looking(const MassesOptions&);

/// Errors: BadInput naming the picture or the option.
Found found_in(const std::string& picture, const MassesOptions&);

/// What there is to say of the picture, its crop and of masks, on standard output and error.
void say_found(const std::string& picture, const Found&);

} // namespace tidemark::cli
