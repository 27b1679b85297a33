"""Lines inside a piece and cut-outs, in all sizes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal, get_args

import numpy as np

from notchwork.model import CutOut, InnerLine, Node
from notchwork.recognise.shape import Inner
from notchwork.recognise.words.frame import Frame, handle, one_of
from notchwork.recognise.words.ids import slug, valid
from notchwork.recognise.words.sized import sized
from notchwork.recognise.words.together import matched

Use = Literal["casing", "fold", "placement", "topstitch", "slash"]

USES: tuple[Use, ...] = get_args(Use)
STEADY = 0.2
"""mm by which a line may be off the distance that it states, and still keep it."""


def inner_of(frame: Frame) -> Iterator[tuple[str, InnerLine]]:
    for name, found, base in _lines(frame, "inner", "line"):
        first = found[base]
        facts = first.facts
        use = one_of(first.use, USES)
        width = facts.get("width")
        wide = float(width) if isinstance(width, float | int) else None
        parallel, depth = facts.get("edge"), facts.get("depth")
        if isinstance(depth, float | int) and _is_parallel(frame, first, parallel, float(depth), base):
            distance = {s: float(line.facts.get("depth", depth)) for s, line in found.items()}
            yield (
                name,
                InnerLine(parallel_to=str(parallel), distance=sized(distance, 4), width=wide, use=use),
            )
            continue
        yield (
            name,
            InnerLine(line=_line_nodes(frame, name, found, base), width=wide, use=use, closed=first.closed),
        )


def _is_parallel(frame: Frame, line: Inner, edge: object, depth: float, size: str | None) -> bool:
    """Whether a line still keeps its stated distance from an edge; it may have been moved since."""
    if edge not in frame.drawn.edges:
        return False
    ends = np.append(line.cubics[:, 0], line.cubics[-1, 3])
    far = frame.drawn.rims[size].near_edge(frame.drawn.edges.index(str(edge)), ends).distance
    return bool(np.median(np.abs(far - depth)) <= STEADY)


def cutouts_of(frame: Frame) -> Iterator[tuple[str, CutOut]]:
    for name, found, base in _lines(frame, "cutouts", "hole"):
        yield name, CutOut(line=_line_nodes(frame, name, found, base))


def _lines(
    frame: Frame, which: str, called: str
) -> Iterator[tuple[str, Mapping[str | None, Inner], str | None]]:
    by_size: dict[str | None, Sequence[Inner]] = {
        size: signs.inner if which == "inner" else signs.cutouts for size, signs in frame.drawn.signs.items()
    }

    def given(line: Inner) -> str | None:
        name = line.facts.get("name")
        return str(name) if name is not None else None

    for found in matched(by_size, frame.drawn.base, given, lambda line: (line.use, len(line.cubics))):
        base = frame.drawn.base if frame.drawn.base in found else next(iter(found))
        stated = given(found[base])
        wanted = valid(stated) if stated else slug(str(found[base].use or called))
        yield frame.name(wanted), found, base


def _line_nodes(
    frame: Frame, name: str, found: Mapping[str | None, Inner], base: str | None
) -> tuple[Node, ...]:
    line = found[base]
    cubics = line.cubics
    alike = all(len(other.cubics) == len(cubics) for other in found.values())
    nodes = []
    count = len(cubics) + (0 if line.closed else 1)
    for k in range(count):
        at = complex(cubics[k, 0] if k < len(cubics) else cubics[-1, 3])
        by_size = {
            size: complex(other.cubics[k, 0] if k < len(cubics) else other.cubics[-1, 3])
            for size, other in found.items()
        }
        rule = frame.shifts.rule(by_size, f"{frame.drawn.ident}_{name}_{k + 1}") if alike else None
        into = handle(cubics[k - 1, 2], cubics[k - 1, 3]) if k or line.closed else None
        out = handle(cubics[k, 1], at) if k < len(cubics) else None
        nodes.append(Node(at=at, into=into, out=out, grade=rule))
    return tuple(nodes)
