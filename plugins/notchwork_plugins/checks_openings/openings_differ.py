"""Layers or lips of one opening that are not equally long."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest, Stretch
from notchwork.sewing.counts.openings import UNLIKE, Layer, layers_of

DIFFER = Rule(
    id="openings/layers-differ",
    title="The layers of an opening are not equally long",
    rationale="Layers that are caught in one closure lie on each other there, and the two lips of an opening close on each other, so "
    "they must be equally long. A gap left for turning closes nothing, and an outer layer that hangs free is no part of it.",
    source="Common practice, no source.",
    grade=Tolerance(warning=UNLIKE),
)

TEXT = "{one} and {other} close on each other, but {longer} is {difference} longer ({more} against {less})."
HINT = "Let the opening begin and end at the same height on both; a layer that hangs free is no part of it."


@check(DIFFER)
def openings_differ(nest: Nest) -> Iterator[Finding]:
    for ident, opening in nest.pattern.openings.items():
        if opening.kind != "gap":
            for layers in layers_of(nest, opening):
                yield from _compared(nest, ident, layers)


def _compared(nest: Nest, ident: str, layers: list[Layer]) -> Iterator[Finding]:
    for layer in layers[1:]:
        length, other_length = layers[0].length, layer.length
        one, other = layers[0].stretches, layer.stretches
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
