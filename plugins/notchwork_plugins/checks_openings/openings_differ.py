"""Layers or lips of one opening that are not equally long."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.model import Span
from notchwork.sewing import Nest, Stretch
from notchwork.sewing.lines import Floats
from notchwork.sewing.spans import stretches_of

DIFFER = Rule(
    id="openings/layers-differ",
    title="The layers of an opening are not equally long",
    rationale="Layers that are caught in one closure lie on each other there, and the two lips of an opening close on each other, so "
    "they must be equally long. A gap left for turning closes nothing, and an outer layer that hangs free is no part of it.",
    source="Common practice, no source.",
    grade=Tolerance(warning=3.0),
)

TEXT = "{one} and {other} close on each other, but {longer} is {difference} longer ({more} against {less})."
HINT = "Let the opening begin and end at the same height on both; a layer that hangs free is no part of it."

_Layer = tuple[tuple[Stretch, ...], Floats]


@check(DIFFER)
def openings_differ(nest: Nest) -> Iterator[Finding]:
    for ident, opening in nest.pattern.openings.items():
        if opening.kind == "gap":
            continue
        for section in opening.sections or ():
            yield from _compared(nest, ident, [_layer(nest, (span,)) for span in section])
        if opening.lips is not None:
            yield from _compared(nest, ident, [_layer(nest, lip) for lip in opening.lips])


def _layer(nest: Nest, spans: Sequence[Span]) -> _Layer:
    stretches = tuple(stretch for span in spans for stretch in stretches_of(nest, span))
    return stretches, np.sum([stretch.length for stretch in stretches], axis=0)


def _compared(nest: Nest, ident: str, layers: list[_Layer]) -> Iterator[Finding]:
    for layer in layers[1:]:
        (one, length), (other, other_length) = layers[0], layer
        names = (_name(one), _name(other))
        rows = tuple(
            Row(
                size,
                by,
                b,
                a,
                {
                    "longer": names[1] if by > 0 else names[0],
                    "difference": Length(abs(by)),
                    "more": Length(max(a, b)),
                    "less": Length(min(a, b)),
                },
            )
            for size, a, b, by in zip(
                nest.sizes,
                length.tolist(),
                other_length.tolist(),
                (other_length - length).tolist(),
                strict=True,
            )
        )
        pieces = tuple(dict.fromkeys(s.graded.id for s in (*one, *other)))
        yield Finding(
            DIFFER,
            Place(opening=ident),
            TEXT,
            HINT,
            {"one": names[0], "other": names[1]},
            rows,
            pieces,
        )


def _name(stretches: Sequence[Stretch]) -> str:
    return " + ".join(dict.fromkeys(f"{s.graded.name} ({plain_name(s.line.name)})" for s in stretches))
