"""What is written on a piece: its name, its copies, its material; and what is said of an edge that is pointed at."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from notchwork.checks import Names
from notchwork.findings import Length, listed, plain_name, safe, worded
from notchwork.model import Cut, in_size
from notchwork.pictures.glance.off import Off
from notchwork.pictures.lettering import lines, short, width
from notchwork.sewing import GradedPiece, Nest

NAME, NOTE = 12.0, 11.0
"""px: heights of type."""
LEADING = 1.25
NAMED = 80
"""Letters of a name that are told in words."""

Line = tuple[str, str]
"""Words, and their kind of mark."""


def cut_words(nest: Nest, graded: GradedPiece, size: int) -> Iterator[str]:
    """Each cut order of a piece: "2 × linen, paired"."""
    if graded.written.use is not None:
        yield f"{graded.written.use}, not cut"
    for cut in graded.written.cut or ():
        count = in_size(cut.count, nest.sizes[size])
        how = ", paired" if cut.mirrored else ""
        other = ", turned over" if cut.hand == "mirrored" else ""
        yield f"{count:g} × {_stuff(nest, cut) or 'cut'}{how}{other}"


def _stuff(nest: Nest, cut: Cut) -> str:
    materials = nest.pattern.materials
    names = [(materials[m].name if m in materials else None) or plain_name(m) for m in cut.materials]
    return " with ".join(short(name, NAMED) for name in names)


WIDTHS = (150.0, 92.0, 66.0, 48.0)
"""px that a block may be wide, the one that is read most easily first."""
UNDER = 92.0
"""px that words below a piece are wide."""


def blocks(nest: Nest, graded: GradedPiece, size: int) -> Iterator[tuple[list[Line], list[Line]]]:
    """The words of a piece as blocks of lines for a place on it, with what then stands below it; the best first.

    First everything in one block, then the name alone.
    """
    name, notes = _name(graded), list(cut_words(nest, graded, size))
    seen: list[list[Line]] = []
    for wide in WIDTHS:
        if wide < _longest_word(name):
            break
        block = [
            *_broken(name, "strong", wide),
            *(line for note in notes for line in _broken(note, "muted", wide)),
        ]
        if block not in seen:
            seen.append(block)
            yield block, []
    yield list(_broken(name, "strong", max(WIDTHS[0], _longest_word(name)))), _notes(notes)


def below_words(nest: Nest, graded: GradedPiece, size: int) -> list[Line]:
    """The words of a piece, where there is no room on it at all."""
    wide = max(UNDER, _longest_word(_name(graded)))
    return [*_broken(_name(graded), "strong", wide), *_notes(cut_words(nest, graded, size))]


def _notes(notes: Iterable[str]) -> list[Line]:
    return [line for note in notes for line in _broken(note, "muted", UNDER)]


def _longest_word(name: str) -> float:
    return max((width(word, NAME, bold=True) for word in name.split()), default=0.0)


def _name(graded: GradedPiece) -> str:
    return short(safe(graded.name))


@lru_cache(maxsize=4096)
def _broken(words: str, kind: str, wide: float) -> tuple[Line, ...]:
    """Words in lines; the same are asked for in every size."""
    return tuple((line, kind) for line in lines(words, wide, _type(kind), kind == "strong"))


def extent(block: Sequence[Line]) -> tuple[float, float]:
    """The width and height of a block in px."""
    wide = max((width(words, _type(kind), kind == "strong") for words, kind in block), default=0.0)
    return wide, sum(LEADING * _type(kind) for _, kind in block)


def _type(kind: str) -> float:
    return {"strong": NAME, "muted": NOTE, "figure": 14.0}[kind]


def base_lines(block: Sequence[Line], top: float) -> Iterator[tuple[str, str, float]]:
    """The lines of a block with the heights of their base lines."""
    for words, kind in block:
        yield words, kind, top + 0.5 * (LEADING + 0.68) * _type(kind)
        top += LEADING * _type(kind)


def edge_words(edge: str) -> str:
    """An edge's name inside a sentence."""
    return short(plain_name(edge), NAMED)


def edge_says(
    names: Names,
    graded: GradedPiece,
    line: str,
    size: int,
    seams: Sequence[tuple[str, str, bool]],
    off: Sequence[Off],
) -> str:
    """A line by name with its length, as drawn and as sewn; then its seams with letters, whether each fits, and by how much not.

    ``seams``: each with its letter and whether that is filled.
    """
    drawn, sewn = float(graded.lines[line].length[size]), float(graded.lines[line].sewn_length[size])
    long = "{drawn}, sewn {sewn}" if abs(drawn - sewn) > 0.05 else "{drawn}"
    fold = ", on the fold" if line in graded.folds else ""
    measured = worded(long, {"drawn": Length(drawn), "sewn": Length(sewn)}, names.unit)
    said = [f"{short(graded.name, NAMED)}, {edge_words(line)}{fold}: {measured}"]
    for seam, letter, fills in seams:
        amounts = listed(part.words for part in off if part.seam == seam and part.words)
        said.append(
            f"{letter} {short(names.seam(seam), NAMED)}{' does not fit' if fills else ''}{amounts and ': ' + amounts}"
        )
    return "; ".join(said)
