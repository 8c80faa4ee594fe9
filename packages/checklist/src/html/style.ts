import { escapeCss } from './markup.js';

/** The style of the page; `identity` is printed at the foot of every sheet of paper. */
export function styleFor(identity: string): string {
  return `${page(identity)}${rules}`;
}

/** No size is set, so that both A4 and Letter keep the paper of whoever prints. */
function page(identity: string): string {
  return `@page {
  margin: 14mm 13mm 16mm;
  @bottom-left { content: "${escapeCss(identity)}"; font: 8pt sans-serif; color: #333; }
  @bottom-right { content: "Page " counter(page) " of " counter(pages); font: 8pt sans-serif; color: #333; }
}
`;
}

const rules = `*, *::before { box-sizing: border-box; }
html { font: 16px/1.42 "Segoe UI", "Helvetica Neue", "Noto Sans", "DejaVu Sans", sans-serif; color: #14202a; background: #e9ecec; }
body { max-width: 58rem; margin: 1.5rem auto; padding: 2rem 2.25rem; background: #fff; }
h1 { margin: 0; font-size: 1.9rem; line-height: 1.15; }
h2 { margin: 1.5rem 0 .5rem; font-size: 1.1rem; border-bottom: 2px solid #14202a; padding-bottom: .15rem; }
h3 { margin: .2rem 0 .3rem; font-size: .82rem; letter-spacing: .05em; text-transform: uppercase; color: #41505b; }
p { margin: .35rem 0; }
ul { margin: 0; padding: 0; list-style: none; }
.identity { color: #41505b; }
.draft { margin: .8rem 0; padding: .5rem .8rem; border: 4px double #14202a; font-weight: 700; }
.facts { display: grid; grid-template-columns: max-content 1fr; gap: .25rem 1.1rem; margin: .9rem 0; }
.facts dt { color: #41505b; }
.facts dd { margin: 0; }
.facts .main { font-weight: 650; }
.job { display: grid; grid-template-columns: 2fr 1fr 1fr; gap: 1.4rem; margin: 1.1rem 0 .9rem; }
.job span { border-top: 1px solid #14202a; margin-top: 1.6rem; padding-top: .1rem; font-size: .8rem; color: #41505b; }
.notice { padding: .5rem .8rem; background: #f1f3f3; border-left: 4px solid #14202a; font-size: .92rem; }
.kit { display: grid; grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr)); gap: .6rem 1.6rem; }
.kit > div { break-inside: avoid; }
.limits h3 { margin-top: .6rem; text-transform: none; letter-spacing: 0; }
.kit small, .limits small, .where { color: #41505b; font-size: .85em; }
label { display: flex; gap: .55rem; align-items: baseline; }
input[type=checkbox] { appearance: none; flex: none; width: .95em; height: .95em; margin: 0; border: 1.5px solid #14202a; border-radius: 2px; background: #fff; transform: translateY(.12em); }
input[type=checkbox]:checked { background: #14202a; box-shadow: inset 0 0 0 2px #fff; }
input[type=checkbox]:focus-visible { outline: 3px solid #5b8fa8; outline-offset: 2px; }
table { width: 100%; border-collapse: collapse; }
caption { text-align: left; font-size: .85rem; color: #41505b; padding-bottom: .35rem; }
caption h2 { color: #14202a; font-size: 1.1rem; }
thead th { text-align: left; font-size: .8rem; color: #41505b; border-bottom: 1.5px solid #14202a; padding: .2rem .4rem; }
thead th:first-child { padding-left: 0; }
tbody th { text-align: left; padding: .9rem .4rem .25rem 0; font-size: 1.12rem; border-bottom: 1px solid #14202a; }
td { vertical-align: top; padding: 0 .4rem; border-bottom: 1px solid #c6cdd1; }
td.do { padding-left: 0; }
tr.open td { border-bottom: 0; }
col.clock { width: 8.2rem; }
col.noted { width: 5.6rem; }
td.clock { font-variant-numeric: tabular-nums; white-space: nowrap; padding-top: .4rem; }
td.noted { border-left: 1px solid #c6cdd1; }
.case, .repeated, .during { padding-left: .9rem; }
.case { border-left: 3px solid #8a979f; }
.repeated { border-left: 6px double #66747d; }
.during { border-left: 3px dotted #66747d; }
.opening .case:has(> .row), .opening .repeated:has(> .row), .opening .during:has(> .row) { margin-top: .55rem; }
.row { display: flow-root; padding: .35rem 0; }
.lead .row { padding-bottom: 0; }
.instruction { font-weight: 650; font-size: 1.04rem; }
.instruction input { width: 1.15em; height: 1.15em; }
.number { flex: none; font-variant-numeric: tabular-nums; min-width: 1.3em; }
.details { margin: .15rem 0 0 2rem; font-size: .95rem; }
.details > li { margin: .08rem 0; }
.hold { display: inline-block; border: 1.5px solid #14202a; border-radius: .9em; padding: 0 .65em; font-weight: 650; }
.ways { display: inline-flex; flex-wrap: wrap; align-items: baseline; gap: .1rem 1.1rem; }
.ways label { display: inline-flex; gap: .35rem; }
.blank { display: inline-block; min-width: 5.5rem; border-bottom: 1px solid #14202a; }
.if { font-weight: 650; }
.stop { font-weight: 650; }
.stop b { border: 2px solid #14202a; padding: 0 .35em; letter-spacing: .06em; }
.caution { display: flex; gap: .6rem; align-items: flex-start; margin: .15rem 0 .35rem; padding: .25rem .55rem; font-size: .9rem; line-height: 1.32; border: 1.5px solid #14202a; break-inside: avoid; }
.caution svg { flex: none; width: 1.35em; height: 1.35em; margin-top: .05em; }
.caution p { margin: 0; }
.caution .signal { font-weight: 800; letter-spacing: .07em; padding: 0 .4em; border: 1.5px solid currentColor; margin-right: .35em; }
.caution.danger { border-width: 4px; }
.caution.danger .signal { background: #14202a; color: #fff; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.caution.warning { border-width: 3px; }
.caution.notice-word { border-style: dashed; border-width: 1px; }
.caution.notice-word .signal { border: 0; padding: 0; font-style: italic; }
.end { margin-top: 1.4rem; font-size: .92rem; break-inside: avoid; }
.times li, .sources li { margin: .12rem 0; }
.sources { font-size: .88rem; }
@media (max-width: 40rem) {
  body { margin: 0; padding: 1rem; }
  .job { grid-template-columns: 1fr; gap: 0; }
  col.noted { width: 3.5rem; }
  col.clock { width: 4.6rem; }
  td.clock { white-space: normal; }
  .details { margin-left: .4rem; }
}
@media print {
  html { font-size: 9.2pt; line-height: 1.36; background: none; }
  body { max-width: none; margin: 0; padding: 0; }
  .notice { background: none; }
  tr { break-inside: avoid; }
  tr.lead { break-after: avoid; }
  h2, h3 { break-after: avoid; }
  thead { display: table-header-group; }
  caption, thead { break-after: avoid; }
  caption { break-inside: avoid; }
  .end { break-before: avoid; margin-top: .8rem; }
}
`;
