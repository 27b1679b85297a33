"""The outline of a piece as the convention draws it: which closed line it is, its corners, nodes, names and folds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from notchwork.findings import Length
from notchwork.geometry import inside
from notchwork.recognise.contours import CORNER
from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.convention.names import Name
from notchwork_plugins.dxf.convention.rings import enclosed, following, on_line
from notchwork_plugins.dxf.convention.sheet import Complexes, Line, Sheet
from notchwork_plugins.dxf.convention.told import SEWN_OUTSIDE, Told

SEWN = 0.5
"""A closed sew line is the stitch line of a piece where it takes up so much of it; a smaller one is a line on it. Common
practice, no source."""
ON_EDGE = 10.0
"""mm: a text stands no further from the edge that it names."""

BESIDE = 1.0
"""mm by which a sew line may leave its boundary where both run on one line."""

Ints = NDArray[np.intp]
Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class Ring:
    """A closed line that is cut into edges, by the numbers of its vertices, so that it holds in all sizes alike.

    ``line`` is its number on the sheet; edges begin at ``corners``; ``nodes`` are further vertices at which curves are joined,
    ``breaks`` those where the line turns sharply inside an edge. ``folds`` are the numbers of edges on the mirror line.
    """

    line: int
    corners: tuple[int, ...]
    nodes: frozenset[int]
    breaks: frozenset[int]
    folds: frozenset[int]
    names: tuple[str | None, ...]

    @property
    def count(self) -> int:
        """How many edges there are: a line without corners is one."""
        return max(len(self.corners), 1)

    def chain(self, edge: int, count: int) -> Ints:
        """The numbers of the vertices of an edge of a line with so many, ends included."""
        if not self.corners:
            return np.append(np.arange(count), 0)
        first = self.corners[edge]
        last = self.corners[(edge + 1) % len(self.corners)]
        last += count if last <= first else 0
        return np.arange(first, last + 1) % count


def outlines(sheet: Sheet) -> tuple[int | None, int | None]:
    """The numbers of the boundary and of the stitch line among the lines of a block, the largest of each."""
    rings = {layer: _largest(sheet.lines, layer) for layer in layers.OUTLINES}
    cut, sewn = rings[layers.BOUNDARY], rings[layers.SEW_LINES]
    if cut is not None and sewn is not None:
        share = abs(enclosed(sheet.lines[sewn])) / max(abs(enclosed(sheet.lines[cut])), 1e-9)
        sewn = sewn if share >= SEWN else None
    return cut, sewn


def _largest(lines: Sequence[Line], layer: int) -> int | None:
    closed = [k for k, line in enumerate(lines) if line.closed and line.layer == layer]
    return max(closed, key=lambda k: abs(enclosed(lines[k])), default=None)


def ring(sheet: Sheet, number: int, names: Sequence[Name] = ()) -> tuple[Ring, list[Name]]:
    """A closed line of a block with its corners and nodes, and the names that stand on none of its edges.

    Its turn points are its corners; where it has none, breaks over CORNER degrees are. Curve points are its nodes, unless all
    its vertices are.
    """
    line = sheet.lines[number]
    count = len(line.z)
    turns = _marked(sheet, line, layers.TURNS)
    curves = _marked(sheet, line, layers.CURVES)
    sharp = np.abs(_breaks(line.z)) > CORNER
    corner = turns if turns.any() else sharp
    folded = _on_mirrors(sheet, line)
    # A fold begins and ends at corners.
    corner = corner | (folded != np.append(folded[-1:], folded[:-1]))
    corners = tuple(np.flatnonzero(corner).tolist())
    nodes = (
        frozenset[int]() if (curves | corner).all() else frozenset(np.flatnonzero(curves & ~corner).tolist())
    )
    breaks = frozenset(np.flatnonzero(sharp & ~corner).tolist())
    found = Ring(number, corners, nodes, breaks, frozenset(), ())
    chains = [found.chain(edge, count) for edge in range(found.count)]
    folds = frozenset(k for k, chain in enumerate(chains) if folded[chain[:-1]].all())
    called, free = _names(line.z, chains, names)
    return _merged(Ring(number, corners, nodes, breaks, folds, called)), free


def _merged(drawn: Ring) -> Ring:
    """The same with neighbours of one name as one edge: the corner between them is a corner inside it."""
    goes_on = [
        name is not None
        and name == drawn.names[k - 1]
        and (k in drawn.folds) == ((k - 1) % drawn.count in drawn.folds)
        for k, name in enumerate(drawn.names)
    ]
    if all(goes_on):
        goes_on[0] = False
    kept = [k for k, on in enumerate(goes_on) if not on]
    if not drawn.corners or len(kept) == len(drawn.names):
        return drawn
    return replace(
        drawn,
        corners=tuple(drawn.corners[k] for k in kept),
        breaks=drawn.breaks | {drawn.corners[k] for k, on in enumerate(goes_on) if on},
        folds=frozenset(new for new, k in enumerate(kept) if k in drawn.folds),
        names=tuple(drawn.names[k] for k in kept),
    )


def _marked(sheet: Sheet, line: Line, layer: int) -> Bools:
    marked = np.zeros(len(line.z), dtype=bool)
    marked[sheet.marked_on(line, layer)] = True
    return marked


def _breaks(z: Complexes) -> NDArray[np.float64]:
    """By how many degrees a closed line turns at each vertex."""
    step = following(z) - z
    turn: NDArray[np.float64] = np.degrees(np.angle(step * np.append(step[-1:], step[:-1]).conj()))
    return turn


def _on_mirrors(sheet: Sheet, line: Line) -> Bools:
    """Which ways from vertex to vertex lie on a mirror line with all of the piece on one side of it."""
    found = np.zeros(len(line.z), dtype=bool)
    for mirror in sheet.on(layers.MIRROR):
        if is_edge(line, mirror):
            on = on_line(line.z, mirror)
            found |= on & np.append(on[1:], on[:1])
    return found


def is_edge(line: Line, mirror: Line) -> bool:
    """Whether a mirror line runs along the outline, and not across it."""
    a, b = complex(mirror.z[0]), complex(mirror.z[-1])
    across = ((line.z - a) * np.conj(b - a)).imag
    across = across[~on_line(line.z, mirror)]
    return bool(len(across)) and bool((across > 0).all() or (across < 0).all())


def _names(
    z: Complexes, chains: Sequence[Ints], names: Sequence[Name]
) -> tuple[tuple[str | None, ...], list[Name]]:
    """The name of each edge, and the texts that stand on none or on one that has a name."""
    called: list[str | None] = [None] * len(chains)
    free: list[Name] = []
    edge_of = np.zeros(len(z), dtype=np.intp)
    for k, chain in enumerate(chains):
        edge_of[chain[:-1]] = k
    after = following(z)
    for name in names:
        far = _to_chords(z, after, name.at)
        row = int(far.argmin())
        edge = int(edge_of[row])
        if far[row] > ON_EDGE or called[edge] is not None:
            free.append(name)
        else:
            called[edge] = name.name
    return tuple(called), free


def tell_outside(sheet: Sheet, cut: Line, sewn: Line, told: Told) -> None:
    """A sew line that leaves its boundary."""
    out = sewn.z[~inside(cut.z, sewn.z)]
    ring = np.append(cut.z, cut.z[:1])
    # A sample does: what is drawn elsewhere is so at many points.
    off = max((distance(ring, at) for at in out[:: max(len(out) // 50, 1)].tolist()), default=0.0)
    if off > BESIDE:
        told.at_line(
            SEWN_OUTSIDE,
            "The sew line of block “{name}” ({things}) lies up to {off} outside its boundary.",
            sewn.line,
            "Look which of the two is wrong, or on the wrong layer.",
            name=sheet.name,
            off=Length(off),
        )


def distance(z: Complexes, at: complex) -> float:
    """How far (mm) a point lies from an open polyline."""
    return float(_to_chords(z[:-1], z[1:], at).min())


def _to_chords(a: Complexes, b: Complexes, at: complex) -> NDArray[np.float64]:
    chord = b - a
    long = np.maximum(np.abs(chord) ** 2, 1e-18)
    share = np.clip(((at - a) * chord.conj()).real / long, 0.0, 1.0)
    far: NDArray[np.float64] = np.abs(a + share * chord - at)
    return far
