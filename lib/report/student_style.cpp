// SPDX-License-Identifier: MIT
#include "report/student_html.hpp"

namespace rangecheck::report {

// --in, --you, --out are bluish green, blue or sky blue, vermillion or orange of Okabe and Ito.
std::string_view page_style() {
  return R"css(:root {
  color-scheme: light dark;
  --paper: #ffffff; --panel: #f4f5f3; --ink: #1b1c1a; --soft: #54574f; --line: #c9cbc4;
  --in: #009e73; --you: #0072b2; --out: #d55e00;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #151614; --panel: #20221f; --ink: #ecebe6; --soft: #b5b7ae; --line: #43463f;
    --in: #009e73; --you: #56b4e9; --out: #e69f00;
  }
}
* { box-sizing: border-box; }
body {
  margin: 0 auto; padding: 1.25rem 1rem 3rem; max-width: 46rem;
  background: var(--paper); color: var(--ink);
  font: 1rem/1.5 system-ui, "Segoe UI", "Noto Sans", sans-serif;
  overflow-wrap: break-word;
}
h1, h2, h3 { font-family: Charter, "Iowan Old Style", Georgia, "Noto Serif", serif; line-height: 1.2; }
h1 { font-size: 2rem; margin: 0; }
h2 { font-size: 1.35rem; margin: 2.5rem 0 .75rem; padding-top: .75rem; border-top: 2px solid var(--ink); }
h3 { font-size: 1.1rem; margin: 1.5rem 0 .25rem; }
h3::first-letter { text-transform: uppercase; }
p { margin: .25rem 0 .5rem; }
ul { margin: 0; padding-left: 1.2rem; }
li { margin: .35rem 0; }
header .what { font-size: 1.1rem; margin-bottom: .75rem; }
header p, .soft, footer, .remark { color: var(--soft); }
.soft, .remark, footer { font-size: .9rem; }
footer { margin-top: 2.5rem; border-top: 1px solid var(--line); padding-top: .75rem; }
.lead { font-size: 1.15rem; }
article.first { background: var(--panel); border-left: 4px solid var(--ink); padding: .25rem 1rem 1rem; }
article.first h3 { font-size: 1.35rem; margin-top: .75rem; }
.then { margin-top: 1.75rem; font-style: italic; }
dl { margin: 0; }
dl > div { margin: .75rem 0 0; }
dt { font-weight: 700; }
dd { margin: 0; }
.careful { border-left: 3px solid var(--out); padding-left: .75rem; }
.verdict { font-weight: 600; white-space: nowrap; }
.checks { list-style: none; padding: 0; }
.checks > li {
  display: grid; grid-template-columns: 1fr auto; gap: 0 1rem; margin: 0; padding: .6rem 0;
  border-bottom: 1px solid var(--line); break-inside: avoid;
}
.checks p { margin: 0; }
.checks .name { font-weight: 600; }
.checks .numbers, .checks .remark { grid-column: 1 / -1; }
.checks .scale { grid-column: 1 / -1; }
.grade { font: 400 .95rem system-ui, "Segoe UI", "Noto Sans", sans-serif; color: var(--soft); margin-left: .5rem; }
.scale { display: block; width: 100%; max-width: 24rem; height: auto; margin: .35rem 0 0; }
.scale text { fill: var(--soft); font: 11px system-ui, "Segoe UI", "Noto Sans", sans-serif; }
.axis { stroke: var(--line); }
.band { fill: var(--in); }
.interval { stroke: var(--you); stroke-width: 2; }
.point { fill: var(--you); stroke: var(--you); stroke-width: 1.5; }
.out .interval, .out .point { stroke: var(--out); }
.out .point { fill: var(--out); }
.open .point { fill: var(--paper); }
figure { margin: 1rem 0 0; }
figcaption ul { list-style: none; padding: 0; margin: 0; }
figcaption p { font-weight: 600; }
.courses { display: grid; grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr)); gap: 0 2rem; }
.courses p { overflow-wrap: anywhere; }
.course-picture { display: block; width: 100%; max-width: 24rem; height: auto; }
.course-picture text { fill: var(--ink); paint-order: stroke; stroke: var(--paper); stroke-width: 3px; font: 13px system-ui, "Segoe UI", "Noto Sans", sans-serif; }
.course { stroke: var(--soft); stroke-dasharray: 2 3; }
.figures { display: grid; grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr)); gap: 0 2rem; }
.golfer { display: block; width: auto; max-width: 100%; height: 22rem; margin: 0 auto; }
.bone { stroke: var(--ink); stroke-width: 4; stroke-linecap: round; fill: none; }
.trail { stroke-width: 3; stroke-dasharray: 8 6; }
.club { stroke: var(--soft); stroke-width: 2; }
.zone { fill: var(--in); fill-opacity: .25; }
.limit { stroke: var(--in); stroke-width: 2; }
.reach { stroke: var(--in); stroke-opacity: .4; stroke-width: 8; }
.reference { stroke: var(--soft); stroke-width: 1.5; stroke-dasharray: 2 4; }
.measured { stroke: var(--you); stroke-width: 4; }
.arc { fill: none; stroke: var(--you); stroke-width: 2; }
.measured.out, .arc.out { stroke: var(--out); }
.key { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; }
.letter { fill: var(--ink); font: 700 13px system-ui, "Segoe UI", "Noto Sans", sans-serif; }
details { margin: .5rem 0; }
summary { cursor: pointer; padding: .5rem 0; }
:focus-visible { outline: 3px solid var(--you); outline-offset: 2px; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-size: .9rem; font-variant-numeric: tabular-nums; }
th, td { padding: .3rem .25rem; text-align: right; border-bottom: 1px solid var(--line); white-space: nowrap; }
thead th { vertical-align: bottom; white-space: normal; }
th[scope=row], .glance th[scope=row] { text-align: left; font-weight: 400; padding-left: 0; min-width: 8.5rem; white-space: normal; }
button { font: inherit; font-weight: 700; color: inherit; background: none; border: 0; padding: .3rem 0; min-height: 1.75rem; text-align: inherit; }
body:has(#roster) { max-width: 75rem; }
button:enabled { cursor: pointer; text-decoration: underline dotted; }
[aria-sort=ascending] button::after { content: " ▲"; }
[aria-sort=descending] button::after { content: " ▼"; }
input { font: inherit; color: inherit; background: var(--paper); border: 1px solid var(--soft); padding: .3rem .5rem; }
.sorted td, .sorted th { text-align: left; }
a { color: inherit; }
.glance { font-size: .8rem; }
.glance th, .glance td { padding: .3rem .15rem; }
.glance th[scope=row] { min-width: 6rem; }
.glance thead th { font-size: .75rem; font-weight: 400; color: var(--soft); }
.unseen { list-style: none; padding: 0; }
.unseen > li { margin: 0 0 1rem; }
.remedy { background: var(--panel); padding: .5rem .75rem; }
@media (min-width: 44rem) {
  th, td, .glance th, .glance td { padding: .3rem .6rem; }
  .glance, .glance thead th { font-size: .9rem; }
  body { padding: 2.5rem 2rem 4rem; }
  .checks > li { grid-template-columns: 17rem 1fr auto; align-items: center; }
  .checks .name { grid-area: 1 / 1; }
  .checks .numbers { grid-area: 2 / 1; }
  .checks .verdict { grid-area: 1 / 3 / span 2; min-width: 6rem; text-align: right; }
  .checks .scale { grid-area: 1 / 2 / span 2; margin: 0; }
  article.first:has(figure) { display: grid; grid-template-columns: 1fr 14rem; gap: 1.5rem; }
}
@media print {
  :root {
    color-scheme: light;
    --paper: #ffffff; --panel: #ffffff; --ink: #000000; --soft: #333333; --line: #999999;
    --in: #009e73; --you: #0072b2; --out: #d55e00;
  }
  @page { margin: 7mm 10mm; }
  html { font-size: 7.5pt; }
  body { max-width: none; padding: 0; line-height: 1.25; }
  h2 { margin: .6rem 0 .2rem; padding-top: .25rem; border-top-width: 1px; break-after: avoid; }
  h3, article.first h3 { font-size: 1.05rem; margin: .6rem 0 .1rem; break-after: avoid; }
  article.first { padding: 0 0 0 .8rem; }
  article, .checks > li, figure { break-inside: avoid; }
  .work { display: grid; grid-template-columns: 1fr 1fr; gap: 0 8mm; }
  .work .first, .work .then { grid-column: 1 / -1; }
  .then { margin-top: .6rem; }
  dl > div { display: grid; grid-template-columns: 5.5rem 1fr; margin-top: .2rem; }
  p, li { margin-top: .1rem; margin-bottom: .15rem; }
  .regions { columns: 3; column-gap: 6mm; }
  .checks > li { grid-template-columns: 1fr auto; gap: 0 .5rem; padding: .1rem 0; }
  .checks .name, .checks .numbers, .checks .verdict, .checks .scale { grid-area: auto; }
  .checks .numbers, .checks .scale, .checks .remark { grid-column: 1 / -1; }
  .checks .verdict { min-width: 0; }
  article.first:has(figure) { display: grid; grid-template-columns: 1fr 64mm; gap: 5mm; }
  figure { display: grid; grid-template-columns: auto 1fr; gap: 3mm; align-items: start; margin: .3rem 0 0; }
  .courses { grid-template-columns: repeat(3, 1fr); gap: 0 5mm; }
  .courses figure { display: block; }
  .golfer { height: 36mm; margin: 0; }
  .scale { max-width: 62mm; margin: .1rem 0 0; }
  section > ul:has(li + li) { columns: 2; column-gap: 8mm; }
  .unseen > li { margin: 0 0 .5rem; break-inside: avoid; }
  .remedy { padding: 0; }
  .unseen .remedy, .unseen > li > p:nth-last-child(2) { display: inline; }
  .unseen > li > p:nth-last-child(2)::after { content: ". "; }
  th, td, .glance th, .glance td { padding: .12rem .5rem; }
  .glance, .glance thead th { font-size: .9rem; }
  details { margin: .1rem 0; }
  summary { padding: 0; }
  details:not([open]) > summary { list-style: none; }
  footer { margin-top: .6rem; padding-top: .2rem; }
}
)css";
}

}  // namespace rangecheck::report
