"""What may be said of a plain drawing in a DXF file."""

from __future__ import annotations

from notchwork.findings import Rule, Severity

_DXF = "The DXF reference of Autodesk"
_OWN = "The program's own; no outside source."

SCALE = Rule(
    id="dxf/scale",
    title="How large the drawing was taken to be",
    rationale="A drawing counts in units of its own, and its header may say what one of them is ($INSUNITS). Whoever reads a "
    "drawing should know which was used.",
    source=f"{_DXF}, $INSUNITS.",
    grade=Severity.INFO,
)
SCALE_UNCLEAR = Rule(
    id="dxf/scale-unclear",
    title="The drawing does not settle how large it is",
    rationale="Many drawings do not say what one of their units is. What is drawn as 100 may be 100 mm, 100 cm or 100 inches, "
    "and every piece with it. Whether a program drew in metric or inches otherwise ($MEASUREMENT) settles nothing.",
    source=f"{_DXF}, $INSUNITS.",
    grade=Severity.WARNING,
)
HIDDEN = Rule(
    id="dxf/hidden",
    title="Hidden layers were left out",
    rationale="Layers that are off or frozen, and parts that are invisible, are not read: people hide what does not belong to "
    "the pattern, such as helping lines and older drafts.",
    source=f"{_DXF}, LAYER (62 below 0: off; 70 with bit 1: frozen) and common group code 60.",
    grade=Severity.INFO,
)
ASIDE = Rule(
    id="dxf/set-aside",
    title="Something was set aside that draws no piece",
    rationale="Dimensions, hatches, leaders, sheets for printing, layers that hold helping points, and blocks that are placed "
    "nowhere belong to the drawing and not to the pattern. What was set aside is listed, so that a piece among it is missed at "
    "once.",
    source=f"{_DXF}, ENTITIES and BLOCKS; the layer Defpoints is never plotted.",
    grade=Severity.INFO,
)
NOT_READ = Rule(
    id="dxf/not-read",
    title="Something in the drawing cannot be read",
    rationale="Bodies and surfaces in space, pictures, and parts that belong to one program alone hold no lines that could be "
    "measured. If a piece is drawn with them, it is missing.",
    source=_OWN,
    grade=Severity.WARNING,
)
BROKEN = Rule(
    id="dxf/broken-part",
    title="A part of the drawing is broken",
    rationale="What a part says of itself does not make a line: a curve without enough points, a circle without a radius. It "
    "was left out, so that a line of the pattern may be missing.",
    source=f"{_DXF}, ENTITIES.",
    grade=Severity.WARNING,
)
DEAD_BLOCK = Rule(
    id="dxf/block-not-placed",
    title="A block could not be placed",
    rationale="A drawing can place one of its blocks again and again. A block that is not in the file has nothing to show, and "
    "one that places itself, or is nested without measure, would never end.",
    source=f"{_DXF}, INSERT; at most 16 blocks in each other is the program's own limit.",
    grade=Severity.WARNING,
)
FLATTENED = Rule(
    id="dxf/flattened",
    title="Lines in space were read as seen from above",
    rationale="Cloth is flat, and so is a pattern. Lines that rise or lie in a tilted plane look shorter from above than they "
    "are, so that lengths taken on them are not true.",
    source=_OWN,
    grade=Severity.WARNING,
)
FITTED = Rule(
    id="dxf/curve-through-points",
    title="A curve is given by the points it passes alone",
    rationale="The file does not say how the curve runs between its points. It was drawn as most programs draw it; in between it "
    "may lie a little beside the curve that its maker saw.",
    source="Common practice, no source.",
    grade=Severity.INFO,
)
OUT_OF_BOUNDS = Rule(
    id="dxf/out-of-bounds",
    title="A part lies beyond all bounds",
    rationale="A part more than a kilometre away, or squeezed to nothing, is no part of a pattern: a number is wrong.",
    source=_OWN,
    grade=Severity.WARNING,
)
DOCUMENT = Rule(
    id="dxf/document-damaged",
    title="The document that travels along is damaged",
    rationale="A drawing written here carries the pattern's document with its seams and notions. A part of it is missing or was "
    "altered, so that the drawing alone is read.",
    source=_OWN,
    grade=Severity.WARNING,
)

PLAIN_RULES = (
    SCALE, SCALE_UNCLEAR, HIDDEN, ASIDE, NOT_READ, BROKEN, DEAD_BLOCK, FLATTENED, FITTED, OUT_OF_BOUNDS, DOCUMENT,
)  # fmt: skip
