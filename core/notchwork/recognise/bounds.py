"""How much a drawing may hold for pieces to be looked for in it. What lies far beyond any sheet is refused at once: it would take
minutes, and the memory of a whole computer."""

from __future__ import annotations

MOST_STROKES = 50_000
"""Lines of a drawing that does not say what they mean. Twenty pieces in ten sizes, each line from vertex to vertex by itself, come to
forty thousand; they take a quarter of a minute."""
MOST_MEETINGS = 60_000
"""Pairs of outlines that reach into each other. Twenty pieces of twenty sizes, nested, have four thousand; these take ten seconds."""
MOST_COMPARED = 1_000_000_000
"""Places on the rims of such pairs, each time the lines of the other: for outlines of a thousand lines, two thousand pairs."""


class TooMuchDrawn(Exception):
    """The drawing holds more than any pattern: ``why`` and ``repair`` say it in plain words."""

    def __init__(self, why: str, repair: str) -> None:
        super().__init__(why)
        self.why = why
        self.repair = repair


def check_strokes(count: int) -> None:
    """Raises TooMuchDrawn for so many strokes."""
    if count > MOST_STROKES:
        raise TooMuchDrawn(
            f"The drawing is larger than any pattern: it has {count:,} separate lines, and pieces are looked for among {MOST_STROKES:,} "
            "at most.",
            "Delete its hatching and whatever else is no pattern, or save the layers of the pattern alone; lines that run end to end can "
            "be joined to polylines in the drawing program.",
        )


def crowded() -> TooMuchDrawn:
    """The error about lines that lie too densely on one another."""
    return TooMuchDrawn(
        "So many lines lie on one another, or within the tolerance of each other, that nothing can be told of them.",
        "Delete its hatching and copies that lie on the originals. Is the drawing at its true size? If a unit of it is not what it was "
        "taken for, say what it is, or state a smaller --tolerance.",
    )


def check_meetings(pairs: int, compared: float) -> None:
    """Raises TooMuchDrawn for so many pairs of outlines, and places and lines of them that must be compared."""
    if pairs > MOST_MEETINGS or compared > MOST_COMPARED:
        raise TooMuchDrawn(
            f"Too many outlines lie across and inside each other: more than {MOST_MEETINGS:,} times one reaches into another, or fewer "
            "times with lines of very many vertices. No nest of sizes has as many.",
            "Delete what is no pattern, lay the pieces beside each other, or save fewer pieces or sizes in one drawing; lines that were "
            "traced too finely can be simplified.",
        )
