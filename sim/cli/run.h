/// The `tidemark` program: rehearse, look, ask, check, draft, swatches, transfer.
///
/// Exit codes: 0 done; 2 the input is wrong (one line a problem on stderr, nothing written); 3 the world outside or a
/// broken promise of our own (disk, folder, a ledger that does not close); 130 stopped by the painter (Ctrl-C), old
/// outputs kept.
#pragma once

namespace tidemark::cli {

int run(int argc, char** argv);

} // namespace tidemark::cli
