// The style of the report page. Pictures in it take their colours from the same variables.

import { DARK, LIGHT, PAPER, type Palette, PICTURE_RULES, variables } from './picture-style.ts';

const root = (palette: Palette): string => `:root{${variables(palette)}}`;

export const PAGE_STYLE = `
${root(LIGHT)}
@media (prefers-color-scheme:dark){${root(DARK)}}
@media print{${root(PAPER)}}
${PICTURE_RULES}
html{color-scheme:light dark;background:var(--paper);color:var(--ink)}
body{font:16px/1.5 system-ui,"Noto Sans",sans-serif;margin:0 auto;max-width:78rem;padding:1.5rem 1.25rem 4rem}
h1{font-size:1.7rem;line-height:1.2;margin:0 0 .4rem;overflow-wrap:anywhere}
h2{font-size:1.2rem;margin:2.6rem 0 .6rem;padding-top:.5rem;border-top:3px solid var(--ink)}
h3{font-size:1rem;margin:1.4rem 0 .4rem}
p{max-width:44rem;margin:.5rem 0}
.lead{font-size:1.15rem}
.dim{color:var(--faint)}
pre,code,td.name,th.name{font-family:ui-monospace,"DejaVu Sans Mono",Menlo,Consolas,monospace;font-size:.88rem}
pre{background:var(--band);padding:.8rem 1rem;overflow:auto;white-space:pre-wrap;overflow-wrap:anywhere}
nav ul{columns:14rem;list-style:none;margin:.8rem 0;padding:0}
a{color:var(--low)}
a:focus-visible,input:focus-visible,.scroll:focus-visible,.tw [tabindex]:focus-visible{outline:3px solid var(--alarm);outline-offset:2px}
.skip{position:absolute;left:-99rem}
.skip:focus{left:1rem;top:.5rem;background:var(--paper);padding:.4rem .7rem}
table{border-collapse:collapse;margin:.6rem 0}
caption{text-align:left;color:var(--faint);padding:.2rem 0}
th,td{text-align:left;vertical-align:top;padding:.28rem .8rem .28rem 0;border-bottom:1px solid var(--faint);overflow-wrap:anywhere}
th{font-weight:600}
td.level,th.level{text-align:center;padding-right:.45rem}
td.number,th.number{text-align:right}
.scroll{overflow:auto;max-width:100%}
.scroll svg{display:block}
.good{color:var(--ink)}
.good::before{content:"\\2713  "}
.bad{color:var(--alarm);font-weight:600}
.bad::before{content:"\\2717  "}
.stepper{margin:.6rem 0}
.stepper input{width:min(24rem,90%)}
.tw.cone .net:not(.lit),.tw.cone .box:not(.lit){opacity:.18}
.tw.stepping .net.now1 .wire{stroke-width:4.2;stroke-dasharray:none}
.tw.stepping .net.now0 .wire{stroke-width:1}
.told{min-height:1.5em}
label{cursor:pointer}
@media print{
body{max-width:none;padding:0;font-size:10.5pt}
nav,.skip,.stepper,.told{display:none}
h2{break-after:avoid}
tr,svg{break-inside:avoid}
.scroll{overflow:visible}
.scroll svg{max-width:100%;max-height:24cm;height:auto}
a{color:inherit;text-decoration:none}
}
`.trim();
