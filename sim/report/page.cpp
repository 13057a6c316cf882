#include "report/page.h"

#include "report/minute_line.h"
#include "report/page_detail.h"
#include "report/page_style.h"

namespace tidemark::report {

std::string page_text(const PageInputs& in) {
    const CueSheet cues = cue_sheet(in.plan, in.record, in.verdicts, in.cautions);
    Html h;
    h.raw("<!DOCTYPE html>\n");
    h.inside("html", {{"lang", "en"}}, [&] {
        h.inside("head", {}, [&] {
            h.single("meta", {{"charset", "utf-8"}});
            h.single("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
            h.element("title", {}, cues.title + ": cue sheet and result");
            h.inside("style", {}, [&] { h.raw(page_style); });
        });
        h.inside("body", {}, [&] {
            write_patterns(h);
            h.inside("main", {}, [&] {
                write_cue_page(h, cues);
                write_result_page(h, in, cues.title);
            });
        });
    });
    return h.str();
}

} // namespace tidemark::report
