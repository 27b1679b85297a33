"""What a line, filling or word stands for, and how that looks on light, dark and printed paper.

Contrast was measured (WCAG 2.2, success criteria 1.4.3 and 1.4.11) on the paper and on both fillings: text at least 4.5, lines
at least 3. No hue carries a meaning alone: what is off is hatched and outlined, what is wanted is dotted, what sews is stitched.
"""

from __future__ import annotations

from collections.abc import Mapping

FONT = 'system-ui,"Segoe UI","Noto Sans","DejaVu Sans",sans-serif'

COLOURS = {
    # role: on light paper, on dark, in print
    "paper": ("#ffffff", "#17191c", "#ffffff"),
    "ink": ("#1d1b18", "#f0ede7", "#000000"),
    "muted": ("#5c574f", "#b3ada3", "#444444"),
    "one": ("#bccddd", "#3d5570", "#c4d2df"),
    "one-line": ("#33506c", "#a9c4de", "#23384d"),
    "two": ("#ecdcb8", "#5d4c29", "#efe3c8"),
    "two-line": ("#77581a", "#e2c68d", "#5a4212"),
    "off": ("#a3310a", "#ff9b70", "#8c2806"),
    "wanted": ("#2c5a4c", "#8fd3bd", "#1f473b"),
    "fine": ("#e9e6e0", "#2b2e32", "#eeeeee"),
}
"""one and two: the cloth of side 1 and of the other sides, each with its line; off; fullness that is wanted; the zone that is
fine."""

LIGHT, DARK, PRINT = ({role: shades[k] for role, shades in COLOURS.items()} for k in range(3))


def variables(colours: Mapping[str, str]) -> str:
    """The colours as custom properties."""
    return "".join(f"--{role}:{colour};" for role, colour in colours.items())


STYLE = """\
svg.picture{font:12px FONT;background:var(--paper);overflow:visible}
.picture text{fill:var(--ink);unicode-bidi:isolate}
.picture .muted{fill:var(--muted);font-size:11px}
.picture .head{font-weight:700;font-size:14px}
.picture .end{text-anchor:end}.picture .mid{text-anchor:middle}
.picture .figure{fill:var(--off);font-weight:700;font-size:14px}
.picture .ease{fill:var(--wanted);font-weight:700;font-size:12px}
.picture .strong{font-weight:700}
.picture .named{paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}
.picture .one{fill:var(--one);stroke:var(--one-line)}
.picture .two{fill:var(--two);stroke:var(--two-line)}
.picture .taped{fill:none;stroke-dasharray:4 3}
.picture .off{fill:url(#hatched);stroke:var(--off);stroke-width:2}
.picture .hatch{fill:url(#hatched);stroke:none}
.picture .pale{fill-opacity:.5}
.picture .missing{fill:url(#hatched);stroke:var(--off);stroke-width:1.6;stroke-dasharray:4 3}
.picture .gone{fill:none;stroke:var(--off);stroke-width:1.6;stroke-dasharray:4 3}
.picture .wanted{fill:url(#dotted);stroke:var(--wanted);stroke-width:1}
.picture .bar{fill:var(--off)}
.picture .fine{fill:var(--fine);stroke:var(--muted);stroke-width:.8}
.picture .wave{fill:none;stroke:var(--two-line);stroke-width:2}
.picture .wave-one{fill:none;stroke:var(--one-line);stroke-width:2}
.picture .halo{fill:none;stroke:var(--paper);stroke-width:5}
.picture .pleat{fill:none;stroke:var(--ink);stroke-width:1.2}
.picture .turn{fill:var(--paper);stroke:var(--off);stroke-width:2}
.picture .pin{stroke:var(--ink);stroke-width:1.6;fill:none}
.picture .pin-head{fill:var(--ink);stroke:var(--paper)}
.picture .notch{fill:var(--ink);stroke:none}
.picture .lost{fill:var(--paper);stroke:var(--ink)}
.picture .gap{stroke:var(--paper);stroke-width:2.4;fill:none}
.picture .stitches{stroke:var(--ink);stroke-width:1.8;stroke-dasharray:5 3.5;fill:none}
.picture .tape{fill:var(--paper);stroke:var(--ink)}
.picture .tick{stroke:var(--ink);stroke-width:.8;fill:none}
.picture .rule{stroke:var(--muted);stroke-width:.6;fill:none}
.picture .on{stroke:var(--ink);stroke-width:1.6;stroke-dasharray:2 3;fill:none}
.picture .cross{stroke:var(--off);stroke-width:2;stroke-dasharray:6 4;fill:none}
.picture .sign{fill:none;stroke:var(--ink);stroke-width:1.8}
.picture .sign-off{fill:var(--off);stroke:none}
.picture .sign-look{fill:var(--paper);stroke:var(--off);stroke-width:2}
.picture .sign-mark{fill:none;stroke:var(--paper);stroke-width:2.4}
.picture .sign-look-mark{fill:none;stroke:var(--off);stroke-width:2}
.picture .cut{fill:none;stroke:var(--muted);stroke-width:1}
.picture .allowance{fill:var(--fine);stroke:none}
.picture .cloth{fill:var(--paper);stroke:none}
.picture .stitch{fill:none;stroke:var(--ink);stroke-width:1.4;stroke-dasharray:5 3}
.picture .fold{fill:none;stroke:var(--ink);stroke-width:2.4;stroke-dasharray:11 4 2 4}
.picture .grain{fill:none;stroke:var(--ink);stroke-width:1}
.picture .edge{fill:none;stroke:var(--ink);stroke-width:3}
.picture .net{fill:none;stroke:var(--muted);stroke-width:.6;opacity:.5}
.picture .margin{fill:var(--fine);stroke:var(--muted);stroke-width:1}
.picture .upright{fill:url(#upright);stroke:var(--muted);stroke-width:1}
.picture .dots{fill:url(#dots);stroke:var(--muted);stroke-width:1}
.picture .crossed{fill:url(#crossed);stroke:var(--muted);stroke-width:1}
.picture .inner{fill:none;stroke:var(--muted);stroke-width:1;stroke-dasharray:1.5 2.5}
.picture .ring{fill:var(--paper);stroke:var(--ink);stroke-width:1.2}
.picture .ring.filled{fill:var(--off);stroke:var(--off)}
.picture .letter{font-weight:700;font-size:11px}.picture .letter.filled{fill:var(--paper)}
.picture .size{fill:none;stroke:var(--ink);stroke-width:1.1}.picture .drafted{stroke-width:2}
.picture .smaller{stroke-dasharray:1.5 2.5}.picture .smallest{stroke-dasharray:1.5 5}
.picture .larger{stroke-dasharray:7 3}.picture .largest{stroke-dasharray:13 3}
.picture .between{stroke:var(--muted);stroke-width:.5}
.picture .reach{fill:none;stroke:transparent;pointer-events:stroke}
.picture [aria-label]:hover .line,.picture [aria-label]:focus .line,.picture .now .line{stroke:var(--ink);stroke-width:3;stroke-dasharray:none}
.picture [aria-label]{cursor:pointer;outline:none}
.picture [aria-label]:hover .hot,.picture [aria-label]:focus .hot,.picture .hot.now,.picture .now .hot{stroke:var(--ink);stroke-width:3}
.picture .hot{fill:transparent;stroke:none}
""".replace("FONT", FONT)
"""How each kind of mark looks, in terms of the roles. Whoever shows pictures states the roles' colours once (``variables``)."""

PATTERNS = (
    '<pattern id="hatched" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<rect width="5" height="5" style="fill:var(--paper)"/><rect width="2.2" height="5" style="fill:var(--off)"/></pattern>'
    '<pattern id="dotted" width="5" height="5" patternUnits="userSpaceOnUse">'
    '<rect width="5" height="5" style="fill:var(--paper)"/><circle cx="2.5" cy="2.5" r="1" style="fill:var(--wanted)"/></pattern>'
    # Materials in the allowance: upright lines, dots, a net; never at 45°, which says that something is off.
    '<pattern id="upright" width="3" height="3" patternUnits="userSpaceOnUse"><rect width="1" height="3" style="fill:var(--muted)"/></pattern>'
    '<pattern id="dots" width="3" height="3" patternUnits="userSpaceOnUse"><circle cx="1.5" cy="1.5" r=".8" style="fill:var(--muted)"/></pattern>'
    '<pattern id="crossed" width="4" height="4" patternUnits="userSpaceOnUse"><path d="M0 2h4M2 0v4" style="stroke:var(--muted);stroke-width:.8"/></pattern>'
)
"""What fillings refer to: once a page, inside ``defs`` of an svg element."""
