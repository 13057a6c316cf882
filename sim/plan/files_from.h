/// Where the files may lie that a plan or lesson names.
#pragma once

namespace tidemark::plan {

enum class FilesFrom {
    folder,  ///< its own, and what is below it
    anywhere ///< the painter has said so, by outside_option
};

constexpr const char* outside_option = "--allow-outside"; ///< of both programs

} // namespace tidemark::plan
