/// The two pages of report.html. Private to the room.
#pragma once
#include "report/cue_sheet.h"
#include "report/html.h"
#include "report/page.h"

namespace tidemark::report {

void write_cue_page(Html&, const CueSheet&);
void write_result_page(Html&, const PageInputs&, const std::string& title);

/// "4.2 mL", "0.31 mL", "< 0.01 mL": two digits or so, since a hand measures no finer. Without a unit where a head has it.
std::string amount_text(double value, const char* unit);

} // namespace tidemark::report
