"""A zip that is shorter than its opening, or a separating one that is longer."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance
from notchwork.model import Notion
from notchwork.sewing import Nest
from notchwork.sewing.counts.openings import layers_of
from notchwork.sewing.pieces.amounts import by_size
from notchwork.sewing.pieces.lines import Floats

FINE = 5.0
"""mm by which a zip may be off (common practice, no source)."""

UNFIT = Rule(
    id="openings/zip-does-not-fit",
    title="A zip does not fit its opening",
    rationale="A zip that is shorter than its opening leaves a gap. Invisible and dress zips are bought longer and cut, so only a "
    "separating zip, which has its end stop, can be too long.",
    source="Common practice, no source.",
    grade=Tolerance(warning=FINE),
)

TEXT = "The zip is {length} long, {difference} {how} than its opening ({opening})."
SHORTER_HINT = "Take a zip of at least {opening}, or make the opening shorter."
LONGER_HINT = "A separating zip cannot be cut to length: take one of {opening}, or make the opening longer."


@check(UNFIT)
def zip_does_not_fit(nest: Nest) -> Iterator[Finding]:
    for ident, notion in nest.pattern.notions.items():
        if notion.kind != "zip" or notion.length is None:
            continue
        length = by_size(notion.length, nest.sizes)
        fits = [(_off(notion, length, opening), opening) for opening in _opening_lengths(nest, notion)]
        if not fits:
            continue
        # Where layers are unlike, that is told elsewhere: a zip that fits one of them is right.
        off, opening = next((fit for fit in fits if _fine(fit[0])), fits[0])
        rows = tuple(
            _row(*of_size)
            for of_size in zip(nest.sizes, off.tolist(), length.tolist(), opening.tolist(), strict=True)
        )
        worst = max(rows, key=lambda row: abs(row.off) if row.off == row.off else 0.0)
        hint = SHORTER_HINT if worst.off < 0 else LONGER_HINT
        opening_id = notion.serves if notion.serves in nest.pattern.openings else None
        yield Finding(UNFIT, Place(notion=ident, opening=opening_id), TEXT, hint, rows=rows)


def _row(size: str | None, off: float, length: float, opening: float) -> Row:
    values: dict[str, object] = {
        "length": Length(length),
        "difference": Length(abs(off)),
        "how": "shorter" if off < 0 else "longer",
        "opening": Length(opening),
    }
    return Row(size, off, length, opening, values)


def _fine(off: Floats) -> bool:
    return bool(np.all(np.abs(np.nan_to_num(off)) <= FINE))


def _off(notion: Notion, length: Floats, opening: Floats) -> Floats:
    off = length - opening
    return off if notion.type == "separating" else np.minimum(off, 0.0)


def _opening_lengths(nest: Nest, notion: Notion) -> list[Floats]:
    """The lengths (mm, sizes) of what the zip closes, layer by layer: the sections one after another, or the lips; or an edge."""
    serves = notion.serves or ""
    opening = nest.pattern.openings.get(serves)
    if opening is not None:
        sections = layers_of(nest, opening)
        if opening.lips is not None:
            return [lip.length for lip in sections[0]]
        layers = max((len(section) for section in sections), default=0)
        return [
            np.sum([section[min(k, len(section) - 1)].length for section in sections if section], axis=0)
            for k in range(layers)
        ]
    piece, _, line = serves.partition(".")
    if piece in nest.pieces and line in nest.pieces[piece].lines:
        return [nest.pieces[piece].lines[line].sewn_length]
    return []
