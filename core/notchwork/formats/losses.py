"""What a conversion leaves out: what the pattern uses less what the format carries, computed once for all formats."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from notchwork.findings import Count, Finding, Phrase, Place, Rule, Severity
from notchwork.formats.features import uses
from notchwork.formats.format import Format
from notchwork.model import Pattern
from notchwork.sewing import Nest

NOT_CARRIED = Rule(
    id="losses/not-carried",
    title="The format cannot carry it",
    rationale="The file that was written holds less than the pattern: its format has no place for what is named. "
    "Keep the pattern in the open format too, which carries everything.",
    source="What each format declares that it carries.",
    grade=Severity.WARNING,
)

ATTACHED = Rule(
    id="losses/only-attached",
    title="The drawing does not show it, the document attached to it does",
    rationale="A drawing has lines and words, no seams or notions. The pattern's document travels inside the file, so that "
    "nothing is lost when it is read again; but some programs leave that part out when they save a drawing.",
    source="What each format declares that it carries.",
    grade=Severity.INFO,
)


NO_SHAPE = Rule(
    id="losses/no-shape",
    title="A piece has no shape to be drawn",
    rationale="Of a piece that is known by the lengths of its edges alone there is no outline: whoever cuts by the drawing "
    "would miss it.",
    source="The program's own; no outside source.",
    grade=Severity.WARNING,
)


def losses(pattern: Pattern, target: Format, attached: bool = False) -> Iterator[Finding]:
    """One finding on all that the pattern uses and the format cannot carry: a loss, unless the document goes along,
    ``attached``."""
    lost = {feature: count for feature, count in uses(pattern).items() if feature not in target.carries}
    if lost and not attached:
        yield Finding(
            NOT_CARRIED,
            Place(),
            "Left out, because the format ({format}) cannot carry it: {things}.",
            "Keep the pattern in the open format too.",
            {
                "format": target.name,
                "things": tuple(
                    Phrase("{things} ({count})", {"things": str(feature), "count": Count(count)})
                    for feature, count in lost.items()
                ),
            },
        )
    elif lost:
        yield Finding(
            ATTACHED,
            Place(),
            "Not drawn, but carried along in the document attached to the drawing: {things}.",
            "A program that saves the drawing without its metadata drops them: keep the pattern in the open format too.",
            {"things": tuple(str(feature) for feature in lost)},
        )


def undrawn(nest: Nest, pieces: Collection[str] | None) -> Iterator[Finding]:
    """One finding on the pieces that are asked for (by id, all if None), but have no shape."""
    missed = tuple(
        graded.name
        for ident, graded in nest.pieces.items()
        if (pieces is None or ident in pieces) and not graded.has_shape
    )
    if missed:
        yield Finding(
            NO_SHAPE,
            Place(),
            "Not drawn, because only lengths of it are known: {pieces}."
            if len(missed) == 1
            else "Not drawn, because only lengths of them are known: {pieces}.",
            "Give it an outline, or cut it by other means.",
            {"pieces": missed},
        )
