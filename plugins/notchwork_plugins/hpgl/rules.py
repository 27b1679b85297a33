"""What may be said of a plot."""

from __future__ import annotations

from notchwork.findings import Rule, Severity

PLOTTED = Rule(
    id="hpgl/plotted",
    title="How it is plotted",
    rationale="On how many sheets, for which device, and how far the pen travels while it is up. A plot is measured before "
    "it is cut by: devices are set to scales and paper of their own.",
    source="The program's own; no outside source.",
    grade=Severity.INFO,
)

BEYOND_LIMIT = Rule(
    id="hpgl/beyond-limit",
    title="Longer than a plotter's numbers reach",
    rationale="Many devices take numbers up to 32,767 and cut off larger ones without a word: at 0.025 mm for a step that is "
    "819.175 mm, and a longer piece would be drawn as if it ended there. Steps of 0.05 mm reach twice as far.",
    source="HP PCL 5 Technical Reference Manual, part II, p. 17-11 and 17-20.",
    grade=Severity.INFO,
)

IN_PARTS = Rule(
    id="hpgl/in-parts",
    title="A piece is plotted in parts",
    rationale="A piece that fits no sheet, or is longer than the numbers of the device reach, is plotted in parts. Crosses at "
    "their corners are laid on one another; the distance between two crosses tells whether the paper was moved on truly.",
    source="Common practice, no source.",
    grade=Severity.INFO,
)

SEVERAL_SIZES = Rule(
    id="hpgl/several-sizes-cut",
    title="Several sizes would be cut one through another",
    rationale="A knife cuts every size that is chosen, and the sizes of a piece lie on one another.",
    source="The program's own; no outside source.",
    grade=Severity.WARNING,
)

HALVES = Rule(
    id="hpgl/halves-cut",
    title="Half pieces are cut along their folds",
    rationale="A piece on a fold is drawn as a half, and a knife cuts round what is drawn: of cloth that is half a piece. Only "
    "a template of paper ends at its fold.",
    source="The program's own; no outside source.",
    grade=Severity.WARNING,
)

ONCE = Rule(
    id="hpgl/cut-once",
    title="A piece is cut once, and more are ordered",
    rationale="Each piece is drawn once unless copies are asked for, and a knife cuts what is drawn.",
    source="The program's own; no outside source.",
    grade=Severity.INFO,
)

OFF_GRAIN = Rule(
    id="hpgl/off-grain",
    title="A knife cuts pieces off their grain",
    rationale="Pieces are turned so that they take little room. Of paper that is all the same; cloth is cut with the grainline "
    "of a piece along the cloth's lengthwise thread, which on a roll runs along it.",
    source="Grainlines parallel to the selvage: common practice, no source.",
    grade=Severity.WARNING,
)

NOT_DRAWN = Rule(
    id="hpgl/not-drawn",
    title="A knife alone draws nothing",
    rationale="Without a pen only what is to be cut is carried out: outlines, cut-outs and notches.",
    source="The program's own; no outside source.",
    grade=Severity.WARNING,
)

LETTERS = Rule(
    id="hpgl/letters",
    title="Some letters cannot be written",
    rationale="Words are drawn with single strokes, and there is no such drawing of every letter; a device's own letters are "
    "fewer still.",
    source="The program's own; no outside source.",
    grade=Severity.WARNING,
)

RULES = (PLOTTED, BEYOND_LIMIT, IN_PARTS, SEVERAL_SIZES, HALVES, ONCE, OFF_GRAIN, NOT_DRAWN, LETTERS)
