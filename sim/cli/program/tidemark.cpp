#include "cli/run.h"
#include "grid/calm_threads.h"

TIDEMARK_BRISK_THREADS

int main(int argc, char** argv) { return tidemark::cli::run(argc, argv); }
