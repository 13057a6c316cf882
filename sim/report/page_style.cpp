#include "report/page_style.h"

namespace tidemark::report {

// Ink on paper white 16:1, soft ink 7:1. Widths of columns are those that cue_page.cpp and edge_rows.cpp reckon with.
const std::string_view page_style = R"css(
:root { --ink: #1d1f21; --soft: #50555a; --rule: #b9b6ae; --shade: #efece5 }
* { box-sizing: border-box }
body { margin: 0; background: #fbfaf7; color: var(--ink); font: 15px/1.4 system-ui, sans-serif }
.page { max-width: 80rem; margin: 0 auto; padding: 1.4rem 1.6rem }
.page + .page { border-top: 1px solid var(--rule) }
h1 { font-size: 1.7em; line-height: 1.1; margin: 0 0 .2em; overflow-wrap: anywhere }
h2 { font-size: 1.1em; line-height: 1.2; margin: 1.1em 0 .3em } h2.title { font-size: 1.5em; margin: 0 0 .5em }
p, ul, ol { margin: 0 0 .4em } ul, ol { padding-left: 1.2em }
.soft, caption, figcaption { color: var(--soft) }
table { border-collapse: collapse; width: 100%; table-layout: fixed }
caption { text-align: left; padding-bottom: .2em }
th, td { text-align: left; vertical-align: top; padding: .16em .5em .16em 0; border-bottom: 1px solid var(--rule); overflow-wrap: break-word }
th { font-weight: normal } thead th { color: var(--soft); vertical-align: bottom }
b, tr.no .c1, tr.no .c4 { font-weight: 600 }
tr.waits > * { background: var(--shade) }
ul.columns { columns: 2; column-gap: 2rem }
svg.ribbon { display: block; width: 100% } td.line, th.line { padding-top: 0; padding-bottom: 0; padding-right: 0; vertical-align: middle }
svg.patterns { position: absolute; width: 0; height: 0 }
.key svg { height: 1em; width: 2em; vertical-align: -.15em; margin-right: .3em }
.sample { white-space: nowrap; margin-right: 1em }
.side { display: grid; grid-template-columns: 1fr 1fr; column-gap: 2rem }
.three { display: grid; grid-template-columns: 1fr 1fr 1fr; column-gap: 1.6rem }
.pictures { display: grid; grid-template-columns: repeat(3, 1fr); gap: 1rem 1.2rem }
figure { margin: 0 } figcaption b { color: var(--ink) }
figure img { display: block; width: 100%; height: auto; border: 1px solid var(--rule); margin-bottom: .25em }
@media print, screen and (min-width: 761px) {
  .cues .c1 { width: 11% } .cues .c2 { width: 31% } .cues .c3 { width: 12% } .cues .c4 { width: 27% } .cues .c5 { width: 19% }
  .edges .c1 { width: 18% } .edges .c2 { width: 7% } .edges .c3 { width: 13% } .edges .c4 { width: 7% } .edges .c5 { width: 55% }
  .mixes .c1 { width: 17% } .mixes .c2 { width: 15% } .mixes .c3 { width: 68% }
}
@media screen and (max-width: 760px) {
  .page { padding: 1rem }
  .side, .three, .pictures { display: block }
  figure { margin-bottom: 1.2rem }
  table, thead, tbody, tr, th, td, caption { display: block; width: auto }
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%) }
  ul.columns { columns: 1 }
  tr { display: flex; flex-direction: column; border-bottom: 1px solid var(--rule); padding: .5em 0 } th.name { order: -1 } tr.waits { background: var(--shade) }
  th, td { border: 0; padding: .05em 0; text-align: left }
  td[data-label]::before { content: attr(data-label) ": "; color: var(--soft) }
  td:empty { display: none }
  .sample { display: inline-block }
}
@media print {
  @page { margin: 10mm }
  body { background: #fff; line-height: 1.18; font-stretch: semi-condensed }
  .page { font-size: var(--type); max-width: none; padding: 0 } .page + .page { border: 0; break-before: page }
  h1 { font-size: 1.5em } h2 { margin: .7em 0 .2em } p, ul, ol { margin-bottom: .2em }
  th, td { padding: .06em .4em .06em 0; border-bottom: .2mm solid var(--rule) }
  tr.waits > * { background: none } tr.waits > * { border-bottom: .4mm solid var(--ink) }
  tr, figure, li { break-inside: avoid } h2 { break-after: avoid }
  .side { column-gap: 6mm } .three { column-gap: 5mm } .pictures { gap: 2mm 4mm }
  figure img { width: auto; max-width: 100%; height: var(--picture); object-fit: contain }
  ul.columns { column-gap: 6mm } h2.title { font-size: 1.3em; margin: 0 0 .4em }
}
)css";

} // namespace tidemark::report
