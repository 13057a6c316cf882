/// What must hold of any sheet at any moment, and its bytes.
#pragma once
#include <cstdint>
#include <string>

#include "sheet/sheet_state.h"

namespace tidemark::trust {

/// "film -3e-09 at cell 4, 7": the first value that is negative or no finite number; empty: none.
std::string unsound(const sheet::SheetState&);

/// Of all fields that painting changes, byte by byte (FNV-1a over 8 bytes at a time).
std::uint64_t fingerprint(const sheet::SheetState&);

} // namespace tidemark::trust
