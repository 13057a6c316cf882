/// How report.html looks: on a screen, on a phone, on paper.
#pragma once
#include <string_view>

namespace tidemark::report {

extern const std::string_view page_style; ///< CSS; each page's letters are as large as its --type says when printed

} // namespace tidemark::report
