"""The rules of what recognition infers from a drawing, and of what keeps it from doing so."""

from __future__ import annotations

from notchwork.findings import Rule, Severity

OWN = "The program's own; no outside source."


def inference(
    name: str, title: str, rationale: str, source: str = OWN, grade: Severity = Severity.INFO
) -> Rule:
    """A rule of this family."""
    return Rule(f"recognised/{name}", title, rationale, source, grade)


GAP = inference(
    "gap-closed",
    "Ends that nearly meet were brought together",
    "Strokes drawn one by one seldom meet exactly. Ends that lie within the tolerance of each other, or of another stroke, are taken "
    "as meeting there.",
    "Common practice, no source: 0.5 mm unless another tolerance is stated.",
)
OPEN = inference(
    "outline-open",
    "An outline does not close",
    "A piece is what a closed line encloses. Where the ends of a line that looks like an outline lie further apart than the "
    "tolerance, nothing says how it goes on between them.",
    grade=Severity.ERROR,
)
STEP = inference(
    "step-straightened",
    "A small step in an outline was straightened",
    "A step shorter than the tolerance is a slip of the pen, and no corner; left in, it would cut an edge in two.",
)
DOUBLED = inference(
    "stroke-doubled",
    "A stroke that is drawn twice counts once",
    "Two strokes with the same ends that run along each other are one line, drawn twice by copying or by tracing.",
)
BESIDE = inference(
    "allowance-drawn",
    "The allowance was taken from what is drawn",
    "Of two outlines one in the other, at a distance that stays the same along each edge, the inner is the stitch line and the outer "
    "the cut line. Bands along the edges say the same, in a colour that a legend, a text or their use explains.",
    "Common practice, no source.",
)
UNCLEAR = inference(
    "allowance-unclear",
    "How wide the allowance is at an edge is not clear",
    "What is drawn beside the edge has no width that stays the same along it, or nothing says that it is an allowance.",
    "Common practice, no source.",
)
TOGETHER = inference(
    "parts-joined",
    "Shapes that abut are one piece",
    "Shapes drawn side by side, with a whole stretch in common, are the faces of one piece; the stretches they share are lines on it. "
    "Put them into groups of their own, or leave a gap between them, if they are cut apart.",
    "Common practice, no source.",
)
TURN = inference(
    "turn-drawn",
    "Strips inside an edge are its turns",
    "A strip of a steady width inside an outline, along the whole of an edge, is what is folded in. The outline is then the cut line.",
    "Common practice, no source.",
)
WIDTH = inference(
    "width-not-as-stated",
    "A stated width is not the one that is drawn",
    "The words beside a piece state the width of its allowance, and what is drawn has another. The drawn one is used.",
    "Common practice, no source: half a millimetre is let pass.",
)
NOTHING = inference(
    "no-piece-named",
    "Nothing says what is a piece",
    "The drawing has no words, and its outlines cross each other: they may be pieces, or lines that helped to draw them. "
    "Every closed outline is measured as it stands.",
)
SWALLOWED = inference(
    "stitch-line-lost",
    "No stitch line could be drawn inside a cut line",
    "Moved in by the allowance, an edge of the piece is swallowed. Either the allowance is too wide for it or the outline is no cut line.",
)
ASIDE = inference(
    "set-aside",
    "Something on the drawing was taken for no piece",
    "Title frames, dimensions, test squares that words name, legends, leaders, stitching and lettering are drawn beside the pieces. "
    "What was set aside is listed, so that a piece among it is missed at once.",
    "Common practice, no source.",
)
UNKNOWN = inference(
    "outline-not-known",
    "Only one outline is drawn",
    "Of one outline alone nobody can tell whether it is the stitch line or the cut line; most that people draw are cut lines. Lengths "
    "are given, and nothing is judged before it is stated which it is.",
    "Common practice, no source.",
)
