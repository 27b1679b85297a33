"""What lines and fillings mean, and the seams by their letters."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.findings import plain_name, safe
from notchwork.pictures import ink
from notchwork.pictures.glance.drawn import Drawn, Look
from notchwork.pictures.glance.rings import RADIUS, pill, wide
from notchwork.pictures.glance.rows import ROOM
from notchwork.pictures.lettering import fitting, short, width
from notchwork.pictures.signs import small
from notchwork.sewing import Nest

FRAME_SIDE = 8.0
"""px to either side of everything."""
SAMPLE, ROW, LETTER_ROW, APART = 26.0, 17.0, 20.0, 14.0
"""px: the length of a sample, the heights of a row of samples and of one of letters, the least between two entries."""
TOGETHER = 20
"""Rows of letters that no end of a sheet parts."""

Marks = tuple[list[str], float]
"""Marks, and how tall they are in px."""


def legend_marks(nest: Nest, look: Look, pieces: Sequence[Drawn]) -> Marks:
    """The lines and fillings that are drawn, each with its word."""
    entries = list(_entries(nest, look, pieces))
    marks: list[str] = []
    x, y = 0.0, 6.0
    for sample, words in entries:
        far = SAMPLE + 5.0 + width(words, 11.0)
        if x and x + far > ROOM:
            x, y = 0.0, y + ROW
        marks += [ink.moved([sample], x, y), ink.text(x + SAMPLE + 5.0, y + 4.0, words, "muted")]
        x += far + APART
    return marks, y + 6.0 if entries else 0.0


def _entries(nest: Nest, look: Look, pieces: Sequence[Drawn]) -> Iterator[tuple[str, str]]:
    line = f"M0 0h{ink.n(SAMPLE)}"
    drawn = "".join(mark for made in pieces for mark in made.marks)
    for kind, words in (
        ("cut", "cut line"),
        ("stitch", "stitch line"),
        ("fold", "fold"),
        ("inner", "line inside"),
    ):
        if f'"{kind} line"' in drawn or (kind == "cut" and '"margin"' in drawn):
            yield ink.path(line, kind), words
    if '"grain"' in drawn:
        yield ink.path("M0 0h26m-5-3l5 3l-5 3M5-3l-5 3l5 3", "grain"), "lengthwise thread"
    offs = [off for made in pieces for off, _ in made.bands]
    for longer, kind, words in ((True, "off", "the longer side"), (False, "gone", "the shorter side")):
        if any(off.longer == longer for off in offs):
            yield ink.box(1, -5, SAMPLE - 2, 9, kind), words
    severities = sorted({sign.severity for made in pieces for sign in made.signs})
    if severities:
        apart = [SAMPLE / 2 + (k - (len(severities) - 1) / 2) * 16.0 for k in range(len(severities))]
        yield (
            "".join(small(severity, complex(x, -0.5)) for severity, x in zip(severities, apart, strict=True)),
            "look at the list",
        )
    for material, texture in look.textures.items():
        if texture and f'"{texture}"' in drawn:
            stuff = nest.pattern.materials[material]
            yield (
                "".join(ink.box(1, -5, SAMPLE - 2, 9, k) for k in ("margin", texture)),
                short(stuff.name or plain_name(material)),
            )


def key_marks(look: Look) -> Iterator[Marks]:
    """Every letter with the name of its seam, in two columns where names are short, filled as on the pieces.

    Of very many, as many as fit on a part of a sheet of paper stand together.
    """
    names = {seam: safe(look.names.seam(seam)) for seam in look.letters}
    beside = max((wide(letter) for letter in look.letters.values()), default=0.0) + 6.0
    columns = 2 if all(width(name, 11.0) + beside <= ROOM / 2 for name in names.values()) else 1
    room = ROOM / columns
    letters = list(look.letters.items())
    for first in range(0, len(letters), columns * TOGETHER):
        some = letters[first : first + columns * TOGETHER]
        tall = -(-len(some) // columns)
        marks: list[str] = []
        for number, (seam, letter) in enumerate(some):
            x, y = number // tall * room, RADIUS + number % tall * LETTER_ROW
            marks += pill(complex(x + (beside - 6.0) / 2, y), letter, seam in look.fills)
            marks.append(ink.text(x + beside, y + 4.0, fitting(names[seam], room - beside, 11.0), "muted"))
        yield marks, tall * LETTER_ROW
