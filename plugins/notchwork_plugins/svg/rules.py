"""What may be said of an SVG file."""

from __future__ import annotations

from notchwork.findings import Rule, Severity

_SVG = "SVG 2 (W3C Candidate Recommendation)"

SCALE = Rule(
    id="svg/scale",
    title="How large the drawing was taken to be",
    rationale="A drawing counts in units of its own. What one of them is in millimetres follows from the width and height "
    "that the drawing states beside its viewBox; a px is 1/96 inch. Whoever reads a drawing should know which was used.",
    source=f"{_SVG}, 8.2 and 8.9; CSS Values and Units 4, 6.2.",
    grade=Severity.INFO,
)

SCALE_UNCLEAR = Rule(
    id="svg/scale-unclear",
    title="The drawing does not settle how large it is",
    rationale="Editors have counted 72, 90 and 96 px to the inch. Where a drawing states its size in px or not at all, what "
    "is drawn as 100 mm may come out as 75, 94, 107 or 133 mm, and every piece with it. Measure a test square before cutting.",
    source="CSS Values and Units 4, 6.2 (96 px); 72 and 90 are the habits of editors, common practice, no source.",
    grade=Severity.WARNING,
)

STRETCHED = Rule(
    id="svg/stretched",
    title="The drawing is stretched",
    rationale="The drawing says that it is to be fitted to a page of another shape by stretching it: across it has another "
    "scale than down, so that no piece has the shape in which it was drafted.",
    source=f"{_SVG}, 8.6 (preserveAspectRatio none).",
    grade=Severity.WARNING,
)

HIDDEN = Rule(
    id="svg/hidden",
    title="Hidden parts were left out",
    rationale="Layers and shapes that are hidden in the drawing are not read: people hide what does not belong to the "
    "pattern, such as helping lines, photographs and older drafts.",
    source=f"{_SVG}, 11.1 (display, visibility).",
    grade=Severity.INFO,
)

NOT_READ = Rule(
    id="svg/not-read",
    title="Something in the drawing cannot be read",
    rationale="Pictures and pages of other kinds inside a drawing hold no lines that could be measured.",
    source="The program's own; no outside source.",
    grade=Severity.INFO,
)

CLIPPED = Rule(
    id="svg/clipped",
    title="Clipped or masked parts were read whole",
    rationale="A clip or a mask only hides part of what is drawn. Lines are read as they were drawn, for the pattern goes on "
    "beneath it.",
    source="The program's own; no outside source.",
    grade=Severity.INFO,
)

BROKEN_PATH = Rule(
    id="svg/broken-path",
    title="A path is broken off",
    rationale="The data of a path must follow its grammar to the last character. What stands before the fault is drawn, what "
    "stands after it is not: a piece of the pattern may be missing.",
    source=f"{_SVG}, 9.5.2 (error handling in path data).",
    grade=Severity.WARNING,
)

BAD_VALUE = Rule(
    id="svg/bad-value",
    title="A value in the drawing cannot be understood",
    rationale="A length, a transform or a frame that is not written as the standard says has no effect, so that a shape may "
    "lie elsewhere or be missing.",
    source=f"{_SVG}, 4.2 and 8.",
    grade=Severity.WARNING,
)

DEAD_LINK = Rule(
    id="svg/dead-link",
    title="A part that is used again cannot be found",
    rationale="A drawing can use one of its parts again in another place. Parts in other files are never fetched, and parts "
    "that use themselves would never end.",
    source=f"{_SVG}, 5.6 (the use element).",
    grade=Severity.WARNING,
)

STYLE_NOT_READ = Rule(
    id="svg/style-not-read",
    title="Some styles were not read",
    rationale="Of style sheets only plain selectors are understood: elements, classes and ids. What other rules hide or "
    "colour is taken as it stands without them. Style sheets in other files are never fetched.",
    source="CSS 2.2, chapter 5.",
    grade=Severity.INFO,
)

OUT_OF_BOUNDS = Rule(
    id="svg/out-of-bounds",
    title="A part lies beyond all bounds",
    rationale="A part more than a kilometre away, or of no extent, is no part of a pattern: a transform or a number is wrong.",
    source="The program's own; no outside source.",
    grade=Severity.WARNING,
)

RULES = (
    SCALE, SCALE_UNCLEAR, STRETCHED, HIDDEN, NOT_READ, CLIPPED, BROKEN_PATH, BAD_VALUE, DEAD_LINK, STYLE_NOT_READ, OUT_OF_BOUNDS,
)  # fmt: skip
