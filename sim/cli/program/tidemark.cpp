#include "cli/run.h"
#include "grid/calm_threads.h"
#include "grid/steady.h"

TIDEMARK_BRISK_THREADS

int main(int argc, char** argv) {
    tidemark::grid::stand_firm();
    return tidemark::cli::run(argc, argv);
}
