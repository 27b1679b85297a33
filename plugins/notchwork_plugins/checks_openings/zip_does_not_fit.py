"""A zip that is shorter than its opening, or a separating one that is longer."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance
from notchwork.model import Notion
from notchwork.sewing import Nest
from notchwork.sewing.amounts import by_size
from notchwork.sewing.lines import Floats
from notchwork.sewing.spans import stretches_of

UNFIT = Rule(
    id="openings/zip-does-not-fit",
    title="A zip does not fit its opening",
    rationale="A zip that is shorter than its opening leaves a gap. Invisible and dress zips are bought longer and cut, so only a "
    "separating zip, which has its end stop, can be too long.",
    source="Common practice, no source.",
    grade=Tolerance(warning=5.0),
)

TEXT = "The zip is {length} long, {difference} {how} than its opening ({opening})."
SHORTER_HINT = "Take a zip of at least {opening}, or make the opening shorter."
LONGER_HINT = "A separating zip cannot be cut to length: take one of {opening}, or make the opening longer."


@check(UNFIT)
def zip_does_not_fit(nest: Nest) -> Iterator[Finding]:
    for ident, notion in nest.pattern.notions.items():
        if notion.kind != "zip" or notion.length is None:
            continue
        opening = _opening_length(nest, notion)
        if opening is None:
            continue
        length = by_size(notion.length, nest.sizes)
        off = length - opening
        if notion.type != "separating":
            off = np.minimum(off, 0.0)
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


def _opening_length(nest: Nest, notion: Notion) -> Floats | None:
    """The length (mm, sizes) of what the zip closes: the sections one after another, or the first lip; or an edge."""
    serves = notion.serves or ""
    opening = nest.pattern.openings.get(serves)
    if opening is not None:
        if opening.sections is not None:
            spans = [section[0] for section in opening.sections if section]
        else:
            spans = list(opening.lips[0]) if opening.lips is not None else []
        stretches = [stretch for span in spans for stretch in stretches_of(nest, span)]
        return np.sum([stretch.length for stretch in stretches], axis=0) if stretches else None
    piece, _, line = serves.partition(".")
    if piece in nest.pieces and line in nest.pieces[piece].lines:
        return nest.pieces[piece].lines[line].sewn_length
    return None
