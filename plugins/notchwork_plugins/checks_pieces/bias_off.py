"""A piece that is to be cut on the bias stands at another angle."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Angle, Finding, Place, Row, Rule, Tolerance, plain_name
from notchwork.sewing import Nest
from notchwork_plugins.checks_pieces.directions import between, chord

WANTED = 45.0

OFF = Rule(
    id="pieces/bias-not-45",
    title="A bias piece does not stand at 45° to the thread",
    rationale="Cloth stretches and drapes evenly only on the true bias, at 45° to both threads. A piece that claims the bias "
    "and is cut a few degrees off twists.",
    source="True bias is 45°: common practice, no source. Nothing is said of gores whose grain is tilted without that claim.",
    grade=Tolerance(warning=3.0, unit="deg"),
)

TEXT = "It is to be cut on the bias, but the grainline stands at {angle} to its {edge} instead of {wanted}."
HINT = "Turn the grainline to 45° from the {edge}, or say which grain is meant."


@check(OFF, needs="shapes")
def bias_off(nest: Nest) -> Iterator[Finding]:
    for graded in nest.pieces.values():
        edge = graded.written.bias_to or next(iter(graded.folds), None)
        claims = graded.written.grain == "bias" and graded.has_shape and graded.grainline is not None
        if not claims or edge is None or edge not in graded.lines:
            continue
        assert graded.grainline is not None
        grain = graded.grainline[:, 1] - graded.grainline[:, 0]
        angle = between(grain, chord(nest, graded.lines[edge]))
        rows = tuple(
            Row(size, float(a) - WANTED, float(a), WANTED, {"angle": Angle(float(a))})
            for size, a in zip(nest.sizes, angle, strict=True)
        )
        values = {"edge": plain_name(edge), "wanted": Angle(WANTED)}
        yield Finding(OFF, Place(piece=graded.id, line=edge), TEXT, HINT, values, rows, (graded.id,))
