/// What `ask` is to vary: options as they are typed.
#pragma once
#include "plan/variants.h"

#include <string>
#include <vector>

namespace tidemark::cli {

constexpr std::size_t most_variants = 64;

struct Varied {
    std::string step, key;           ///< a step's name, "mix.NAME" or "sheet"
    std::vector<std::string> values; ///< as in a plan
    std::string option;              ///< "--vary", "--room"
    std::string name() const { return step == "sheet" ? key : step + "." + key; }
};

/// "shed.wait=0:00..12:00/1:00" or "shed.film_um=40,55,70"; the key follows the last point before the '='. A range ends at
/// or before its second value. Errors: BadInput naming --vary.
Varied varied_from(const std::string& text);
/// "temperate-studio,cold-hall". Errors: BadInput naming the option.
Varied varied_sheet(const std::string& option, const std::string& key, const std::string& text);

/// All combinations, the last one changing fastest. Errors: BadInput when there are more than 64, or one is varied twice.
std::vector<std::vector<plan::Change>> combinations(const std::vector<Varied>&);

} // namespace tidemark::cli
