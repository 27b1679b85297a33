"""How the page looks: on a phone, a screen and paper, light and dark."""

from __future__ import annotations

from notchwork.pictures import roles

_COLOURS = (
    f":root{{{roles.variables(roles.LIGHT)}}}"
    f"@media (prefers-color-scheme:dark){{:root{{{roles.variables(roles.DARK)}}}}}"
    f"@media print{{:root{{{roles.variables(roles.PRINT)}}}}}"
)

_TEXT = """\
*{box-sizing:border-box}
html{background:var(--paper);color:var(--ink);font:16px/1.45 FONT;-webkit-text-size-adjust:100%;scroll-padding-top:8px}
body{margin:0 auto;padding:8px;max-width:1080px;overflow-wrap:anywhere}
h1,h2,h3{line-height:1.2;margin:1.6em 0 .5em;text-wrap:balance}
h1{font-size:1.7rem;margin-top:.3em}h2{font-size:1.3rem;border-top:1px solid var(--muted);padding-top:.7em}
h3{font-size:1.05rem}
p{margin:.4em 0}p,li{max-width:44rem}
ul,ol{margin:.4em 0;padding-left:1.4em}ol{padding-left:2.2em}
a{color:inherit;text-underline-offset:.18em}
a:focus-visible,summary:focus-visible,label:focus-within,.wide:focus-visible{outline:3px solid var(--ink);outline-offset:2px}
[tabindex="-1"]:focus{outline:none}
[id]:target{scroll-margin-top:8px}
.findings>:target,.card:target,tr:target{outline:3px solid var(--ink);outline-offset:4px}
bdi{unicode-bidi:isolate}
code{font:inherit}
.muted,.how,small{color:var(--muted);font-size:.9rem}
.skip{position:absolute;left:-9999px}.skip:focus{position:static}
.patterns{position:absolute}
.sign{flex:none;vertical-align:-.2em;fill:none;stroke:currentColor;stroke-width:2;stroke-linejoin:round}
.sign.off{color:var(--off)}.sign.look{color:var(--off)}.sign .full{fill:currentColor}.sign .on{stroke:var(--paper);stroke-width:3}
.verdict{font-size:1.2rem;max-width:44rem}.verdict .sign{width:28px;height:28px;margin-right:.4em;vertical-align:-.35em}
nav ul{display:flex;flex-wrap:wrap;gap:0 1em;list-style:none;padding:0}
nav a,.ways a{display:inline-block;padding:4px 0}
.letter{display:inline-block;min-width:1.5em;padding:0 .3em;border:1.5px solid;border-radius:1em;text-align:center;font-size:.85em;line-height:1.4}
"""

_FINDINGS = """\
.groups{columns:2 22rem;column-gap:28px}
.groups li{break-inside:avoid}.groups h3{break-after:avoid}
.groups>div>h3:first-child{margin-top:0}
.findings{list-style:none;padding:0}
.findings>li{display:flex;gap:.6em;margin:.6em 0 1.1em}
.findings>li>div{min-width:0}.findings .sign{margin-top:.15em}
.findings .word{color:var(--off)}
.why summary,.quiet>summary{cursor:pointer;padding:4px 0;color:var(--muted);font-size:.9rem}
.why[open]{border-left:2px solid var(--muted);padding-left:.8em}
.ways{font-size:.9rem}.ways a{margin-right:1em}.ways:empty{display:none}
"""

_TABLES = """\
.wide{overflow-x:auto;max-width:100%}
table{border-collapse:collapse;font-variant-numeric:tabular-nums;font-size:.92rem;margin:.4em 0}
th,td{overflow-wrap:normal;text-align:left;vertical-align:top;padding:.25em .9em .25em 0;font-weight:400}
thead th{color:var(--muted);border-bottom:1px solid var(--muted);vertical-align:bottom}
tbody tr+tr>*{border-top:1px solid var(--fine)}
th bdi,td:not(.n){overflow-wrap:anywhere}td:not(.n){min-width:4.5rem}
th[scope=row]{min-width:6.5rem}.wide th[scope=row]{min-width:10rem}.findings th[scope=row]{min-width:3rem;overflow-wrap:anywhere}
@media (max-width:480px){th,td{padding-right:.5em}td:not(.n){min-width:3.5rem}th[scope=row]{min-width:5rem}}
.n{text-align:right;white-space:nowrap}
.figures{overflow-wrap:normal}
td strong.bad{color:var(--off)}
"""

_PICTURES = """\
.cards{display:grid;grid-template-columns:repeat(auto-fill,344px);gap:20px 12px;align-items:start;max-width:100%;overflow-x:auto}
.card{width:344px;overflow:visible;min-width:0}
.card svg.picture{display:block}
.card+.card,.card svg.picture+svg.picture{margin-top:0}
.says{display:none;font-size:12px;line-height:1.35;min-height:2.7em;margin:0;padding:0 8px}
.card .ways{margin:0;padding:0 8px}
.live .says{display:block}
@media screen and (min-width:1080px){.beside{display:grid;grid-template-columns:344px 1fr;gap:28px}}
.beside>div{min-width:0}
fieldset.chooser{border:0;padding:0;margin:0;display:flex;flex-wrap:wrap;gap:4px 10px}
.chooser legend{padding:0;float:left;margin-right:.6em;color:var(--muted)}
.chooser input{position:absolute;opacity:0}
.chooser label{order:1;border:1.5px solid var(--muted);border-radius:4px;padding:2px 12px;min-height:28px;cursor:pointer}
.chooser input:checked+label{background:var(--ink);color:var(--paper);border-color:var(--ink)}
.chooser input:focus-visible+label{outline:3px solid var(--ink);outline-offset:2px}
.chooser .panel{order:2;display:none;flex:none;width:100%;overflow-x:auto}
.chooser input:checked+label+.panel{display:block}
"""

_PAPER = """\
@page{margin:12mm}
@media print{
html{font-size:9.5pt}body{padding:0;max-width:none}
nav,.skip,.says,.ways,.why,.chooser label,.chooser legend{display:none!important}
.cards{grid-template-columns:344px 344px;overflow:visible}
.card,.findings>li,tr{break-inside:avoid}footer{break-inside:avoid}h2,h3,.how,h3+p{break-after:avoid}p{break-inside:avoid}
#glance{break-before:page}#glance .card{break-inside:auto;width:auto}
.parts{display:grid;grid-template-columns:344px 344px;gap:8px 12px;align-items:start}.parts svg.picture{break-inside:avoid}
#glance>.how{display:none}
.chooser{display:block}.wide,.chooser .panel{overflow:visible}
a{text-decoration:none}
*{print-color-adjust:exact;-webkit-print-color-adjust:exact}
}
@media (prefers-reduced-motion:no-preference){html{scroll-behavior:smooth}}
"""

STYLE = (
    _COLOURS + roles.STYLE + (_TEXT + _FINDINGS + _TABLES + _PICTURES + _PAPER).replace("FONT", roles.FONT)
)
"""One style sheet for page and pictures."""
