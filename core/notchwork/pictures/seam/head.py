"""The head of a card: the sign, the seam's letter and name, the sizes; and the sentences under it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from notchwork.findings import Severity, safe
from notchwork.pictures import ink
from notchwork.pictures.lettering import fitting, lines, width
from notchwork.pictures.seam.axis import LEFT, RIGHT
from notchwork.pictures.signs import sign

TITLE = 30.0
"""px: where the name begins."""
LINE = 16.0
"""px from line to line."""
_UNIT = re.compile(r"(?<=\d) (?=(?:mm|cm|in|%|times)\b|%)")
"""Between a figure and its unit."""
MOST_LINES = 7
"""Of one sentence; longer ones can be read with the findings."""


def head(
    severity: Severity | None, letter: str, name: str, sizes: str, said: Sequence[str]
) -> tuple[list[str], float]:
    """The marks from y 0 down, and how high they are (px)."""
    room = RIGHT - TITLE - width(sizes, 11.0) - 8.0
    marks = [
        sign(severity, LEFT + 8.0, 14.0),
        ink.text(TITLE, 19.0, fitting(safe(f"{letter} {name}"), room, 14.0, bold=True), "head"),
    ]
    if sizes:
        marks.append(ink.text(RIGHT, 19.0, sizes, "muted", "end"))
    y = 40.0
    for sentence in said:
        broken = lines(_UNIT.sub("\u00a0", safe(sentence)), RIGHT - LEFT)
        if len(broken) > MOST_LINES:
            broken = [
                *broken[: MOST_LINES - 1],
                fitting(broken[MOST_LINES - 1], RIGHT - LEFT - 12.0).rstrip("…") + "…",
            ]
        for line in broken:
            marks.append(ink.text(LEFT, y, line))
            y += LINE
    return marks, y - LINE + 6.0


def sizes_words(names: Sequence[str | None], ring: bool) -> str:
    """ "size M", "S M L" or "10 sizes"; and that the seam is a ring."""
    known = [name for name in names if name is not None]
    said = "" if not known else f"size {known[0]}" if len(known) == 1 else " ".join(known)
    if width(said, 11.0) > 90.0:
        said = f"{len(known)} sizes" if len(known) > 1 else fitting(said, 90.0, 11.0)
    return " · ".join(part for part in (said, "ring" if ring else "") if part)
