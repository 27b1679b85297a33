"""One piece of the pattern, from its shapes in every size and what was read on them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeVar, get_args

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import is_straight
from notchwork.model import (
    Cut,
    CutOut,
    Dart,
    Edge,
    GradedPoint,
    InnerLine,
    Leg,
    Mark,
    Node,
    Notch,
    Piece,
    Place,
    Pleat,
    Sized,
    Strip,
)
from notchwork.recognise.shape import Contour, Inner, Shape
from notchwork.recognise.words.ids import slug, unique, valid
from notchwork.recognise.words.rim import Rim
from notchwork.recognise.words.signs import Folded, Nick, Signs, Spotted, Wedge
from notchwork.recognise.words.sized import Shifts, sized
from notchwork.recognise.words.together import matched

Complexes = NDArray[np.complex128]

Grain = Literal["lengthwise", "cross", "bias", "any"]
Use = Literal["casing", "fold", "placement", "topstitch", "slash"]
Kind = Literal["single", "double", "triple"]
Word = TypeVar("Word", bound=str)

KINDS: tuple[Kind, ...] = get_args(Kind)
GRAINS: tuple[Grain, ...] = get_args(Grain)
USES: tuple[Use, ...] = get_args(Use)
PIECE_USES: tuple[Literal["template", "guide"], ...] = ("template", "guide")
STRIP = ("lower", "end", "upper", "start")
STEADY = 0.2
"""mm by which a line may be off the distance that it states, and still keep it."""
SPACING = 8.0
"""mm between nicks where nothing is stated, as the format has it."""


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """One piece as it is drawn: its shapes and what was made out on them, by size; ``base`` is the size that is drafted."""

    ident: str
    shapes: Mapping[str | None, Shape]
    rims: Mapping[str | None, Rim]
    signs: Mapping[str | None, Signs]
    edges: tuple[str, ...]
    base: str | None

    @property
    def rim(self) -> Rim:
        return self.rims[self.base]

    @property
    def shape(self) -> Shape:
        return self.shapes[self.base]


class PieceBuilder:
    """Puts one piece together; every name in it is unique."""

    def __init__(self, drawn: Drawn, shifts: Shifts) -> None:
        self._drawn = drawn
        self._shifts = shifts
        self._names: set[str] = set(drawn.edges)
        # A place is called by the neighbouring edge; where that lies at both ends, the corner needs a name of its own.
        self._corner_names = (
            tuple(self._name(f"{edge}_start") for edge in drawn.edges) if len(drawn.edges) < 3 else ()
        )

    def build(
        self,
        name: str | None,
        folds: frozenset[int],
        allowances: Mapping[int, Sized],
        cut: tuple[Cut, ...] | None,
        note: str | None,
    ) -> Piece:
        """The piece. ``allowances`` are widths by edge (mm)."""
        drawn = self._drawn
        usual = _usual([w for k, w in allowances.items() if k not in folds])
        facts = drawn.shape.facts
        strip = self._strip()
        grainline, grain = self._grain()
        several = len(drawn.shapes) > 1 or drawn.base is not None
        outlines = {str(size): self._nodes(shape.outline) for size, shape in drawn.shapes.items()}
        return Piece(
            name=name,
            use=_one_of(facts.get("use"), PIECE_USES),
            allowance=usual,
            grain=None if strip else grain,
            bias_to=str(facts["to"]) if facts.get("to") in drawn.edges else None,
            strip=strip,
            outline=None if several or strip else self._nodes(drawn.shape.outline),
            outlines=outlines if several and not strip else None,
            edges=dict(self._edges(folds, allowances, usual)),
            notches=dict(self._notches()),
            darts=dict(self._darts()),
            pleats=dict(self._pleats()),
            inner=dict(self._inner()),
            marks=dict(self._marks()),
            cutouts=dict(self._cutouts()),
            grainline=None if strip else grainline,
            cut=cut,
            note=note,
        )

    def _name(self, wanted: str) -> str:
        name = unique(wanted, self._names)
        self._names.add(name)
        return name

    def _nodes(self, outline: Contour) -> tuple[Node, ...]:
        edge_at = {row: k for k, row in enumerate(outline.corners)}
        nodes = []
        for row, cubic in enumerate(outline.cubics):
            at = complex(cubic[0])
            k = edge_at.get(row)
            nodes.append(
                Node(
                    at=at,
                    into=_handle(outline.cubics[row - 1, 2], outline.cubics[row - 1, 3]),
                    out=_handle(cubic[1], at),
                    edge=self._drawn.edges[k] if k is not None else None,
                    name=self._corner_names[k] if k is not None and self._corner_names else None,
                )
            )
        return tuple(nodes)

    def _place(self, edge: int, arcs: Mapping[str | None, float]) -> Place:
        """A place on an edge by its arc positions: from the nearer end in the drafted size."""
        drawn = self._drawn
        length = drawn.rim.length(edge)
        size = drawn.base if drawn.base in arcs else next(iter(arcs))
        if self._corner_names:
            return Place(self._corner_names[edge], offset=sized(arcs))
        if arcs[size] <= length / 2:
            return Place(drawn.edges[edge - 1], offset=sized(arcs))
        from_end = {s: drawn.rims[s].length(edge) - arc for s, arc in arcs.items()}
        return Place(drawn.edges[(edge + 1) % len(drawn.edges)], offset=sized(from_end))

    def _strip(self) -> Strip | None:
        drawn = self._drawn
        if drawn.shape.facts.get("kind") != "strip" or drawn.edges != STRIP:
            return None
        if not all(is_straight(shape.outline.cubics).all() for shape in drawn.shapes.values()):
            return None
        length, width = (
            sized({size: rim.length(edge) for size, rim in drawn.rims.items()}, 4) for edge in (0, 1)
        )
        grain = _one_of(drawn.shape.facts.get("grain"), GRAINS)
        return Strip(width=width, length=length, grain=grain)

    def _grain(self) -> tuple[tuple[GradedPoint, GradedPoint] | None, Grain | None]:
        signs = self._drawn.signs
        grain = _one_of(self._drawn.shape.facts.get("grain"), GRAINS)
        ends = {size: sign.grain for size, sign in signs.items() if sign.grain is not None}
        if not ends:
            return None, grain
        first = ends.get(self._drawn.base) or next(iter(ends.values()))
        points = []
        for k, at in enumerate(first):
            rule = self._shifts.rule({s: e[k] for s, e in ends.items()}, f"{self._drawn.ident}_grain_{k + 1}")
            points.append(GradedPoint(at=at, grade=rule))
        return (points[0], points[1]), grain

    def _edges(
        self, folds: frozenset[int], allowances: Mapping[int, Sized], usual: Sized | None
    ) -> Iterator[tuple[str, Edge]]:
        for k, name in enumerate(self._drawn.edges):
            width = allowances.get(k)
            own = None if width is None or width == usual or k in folds else width
            if own is not None or k in folds:
                yield name, Edge(allowance=own, fold=k in folds)

    def _notches(self) -> Iterator[tuple[str, Notch]]:
        def kind(nick: Nick) -> tuple[int, int]:
            return nick.edge, len(nick.arcs)

        by_size = {
            size: sorted(s.nicks, key=lambda n: (n.edge, n.arc)) for size, s in self._drawn.signs.items()
        }
        for found in matched(by_size, self._drawn.base, lambda nick: nick.name, kind):
            first = next(iter(found.values()))
            edge = self._drawn.edges[first.edge]
            spacing = first.spacing
            name = self._name(valid(first.name) if first.name else f"{edge}_notch")
            yield (
                name,
                Notch(
                    edge=edge,
                    at=self._place(first.edge, {size: nick.arc for size, nick in found.items()}),
                    kind=_kind_of(len(first.arcs)),
                    spacing=None if spacing is None or abs(spacing - SPACING) < 0.05 else round(spacing, 2),
                    use="place" if first.place_only else None,
                ),
            )

    def _darts(self) -> Iterator[tuple[str, Dart]]:
        by_size = {size: sorted(s.wedges, key=_dart_order) for size, s in self._drawn.signs.items()}
        for found in matched(by_size, self._drawn.base, lambda wedge: wedge.name, lambda wedge: wedge.edge):
            base = self._drawn.base if self._drawn.base in found else next(iter(found))
            first = found[base]
            edge = self._drawn.edges[first.edge] if first.edge is not None else None
            name = self._name(valid(first.name) if first.name else f"{edge or 'double'}_dart")
            press = first.press if first.press in self._drawn.edges else None
            if first.edge is None:
                yield name, self._double_pointed(found, first, name, press)
                continue
            apex = {size: complex(wedge.legs[0, 3]) for size, wedge in found.items()}
            feet = [self._place(first.edge, {s: w.feet[k] for s, w in found.items()}) for k in (0, 1)]
            yield (
                name,
                Dart(
                    edge=edge,
                    feet=(feet[0], feet[1]),
                    apex=apex[base],
                    grade=self._shifts.rule(apex, f"{self._drawn.ident}_{name}"),
                    legs=_legs(first.legs),
                    press=press,
                ),
            )

    def _double_pointed(
        self, found: Mapping[str | None, Wedge], first: Wedge, name: str, press: str | None
    ) -> Dart:
        apexes = []
        for k, leg in enumerate((0, 2)):
            at = {size: complex(wedge.legs[leg, 3]) for size, wedge in found.items()}
            rule = self._shifts.rule(at, f"{self._drawn.ident}_{name}_{k + 1}")
            apexes.append(GradedPoint(at=complex(first.legs[leg, 3]), grade=rule))
        width = {size: float(abs(w.legs[0, 0] - w.legs[1, 0])) for size, w in found.items()}
        return Dart(
            apexes=(apexes[0], apexes[1]),
            width=sized(width, 4),
            at=_widest(found.values(), first),
            press=press,
        )

    def _pleats(self) -> Iterator[tuple[str, Pleat]]:
        def kind(pleat: Folded) -> int:
            return pleat.edge

        by_size = {
            size: sorted(s.pleats, key=lambda p: (p.edge, p.low)) for size, s in self._drawn.signs.items()
        }
        for found in matched(by_size, self._drawn.base, lambda pleat: pleat.name, kind):
            first = next(iter(found.values()))
            edge = self._drawn.edges[first.edge]
            folds = [self._place(first.edge, dict(arcs)) for arcs in _ends(found)]
            name = self._name(valid(first.name) if first.name else f"{edge}_pleat")
            to = first.to if first.to in self._drawn.edges else None
            yield name, Pleat(edge=edge, folds=(folds[0], folds[1]), to=to)

    def _inner(self) -> Iterator[tuple[str, InnerLine]]:
        for name, found, base in self._lines("inner", "line"):
            first = found[base]
            facts = first.facts
            use = _one_of(first.use, USES)
            width = facts.get("width")
            wide = float(width) if isinstance(width, float | int) else None
            parallel, depth = facts.get("edge"), facts.get("depth")
            if isinstance(depth, float | int) and self._is_parallel(first, parallel, float(depth), base):
                distance = {s: float(line.facts.get("depth", depth)) for s, line in found.items()}
                yield (
                    name,
                    InnerLine(parallel_to=str(parallel), distance=sized(distance, 4), width=wide, use=use),
                )
                continue
            yield (
                name,
                InnerLine(line=self._line_nodes(name, found, base), width=wide, use=use, closed=first.closed),
            )

    def _is_parallel(self, line: Inner, edge: object, depth: float, size: str | None) -> bool:
        """Whether a line still keeps its stated distance from an edge; it may have been moved since."""
        if edge not in self._drawn.edges:
            return False
        ends = np.append(line.cubics[:, 0], line.cubics[-1, 3])
        far = self._drawn.rims[size].near_edge(self._drawn.edges.index(str(edge)), ends).distance
        return bool(np.median(np.abs(far - depth)) <= STEADY)

    def _cutouts(self) -> Iterator[tuple[str, CutOut]]:
        for name, found, base in self._lines("cutouts", "hole"):
            yield name, CutOut(line=self._line_nodes(name, found, base))

    def _lines(self, which: str, called: str) -> Iterator[tuple[str, Mapping[str | None, Inner], str | None]]:
        by_size: dict[str | None, Sequence[Inner]] = {
            size: signs.inner if which == "inner" else signs.cutouts
            for size, signs in self._drawn.signs.items()
        }

        def given(line: Inner) -> str | None:
            name = line.facts.get("name")
            return str(name) if name is not None else None

        for found in matched(by_size, self._drawn.base, given, lambda line: (line.use, len(line.cubics))):
            base = self._drawn.base if self._drawn.base in found else next(iter(found))
            stated = given(found[base])
            wanted = valid(stated) if stated else slug(str(found[base].use or called))
            yield self._name(wanted), found, base

    def _line_nodes(self, name: str, found: Mapping[str | None, Inner], base: str | None) -> tuple[Node, ...]:
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
            rule = self._shifts.rule(by_size, f"{self._drawn.ident}_{name}_{k + 1}") if alike else None
            into = _handle(cubics[k - 1, 2], cubics[k - 1, 3]) if k or line.closed else None
            out = _handle(cubics[k, 1], at) if k < len(cubics) else None
            nodes.append(Node(at=at, into=into, out=out, grade=rule))
        return tuple(nodes)

    def _marks(self) -> Iterator[tuple[str, Mark]]:
        by_size = {size: signs.marks for size, signs in self._drawn.signs.items()}

        def kind(mark: Spotted) -> str | None:
            return mark.kind

        for found in matched(by_size, self._drawn.base, lambda mark: mark.name, kind):
            first = found.get(self._drawn.base) or next(iter(found.values()))
            name = self._name(valid(first.name) if first.name else "mark")
            rule = self._shifts.rule({s: m.at for s, m in found.items()}, f"{self._drawn.ident}_{name}")
            yield name, Mark(at=first.at, grade=rule, kind=first.kind)


def _ends(found: Mapping[str | None, Folded]) -> list[list[tuple[str | None, float]]]:
    return [[(s, p.low) for s, p in found.items()], [(s, p.high) for s, p in found.items()]]


def _dart_order(wedge: Wedge) -> tuple[int, float]:
    return (-1 if wedge.edge is None else wedge.edge, min(wedge.feet))


def _kind_of(count: int) -> Kind:
    return KINDS[min(count, 3) - 1]


def _handle(handle: complex, node: complex) -> complex | None:
    return None if abs(handle - node) < 1e-9 else complex(handle)


def _widest(wedges: Iterable[Wedge], first: Wedge) -> float | str:
    """Where a double-pointed dart is widest: mm from its first apex where that is so in all sizes, else the share."""

    def far(wedge: Wedge) -> float:
        return float(abs((wedge.legs[0, 0] + wedge.legs[1, 0]) / 2 - wedge.legs[0, 3]))

    if all(abs(far(wedge) - far(first)) < 1e-3 for wedge in wedges):
        return round(far(first), 4)
    return f"{round(100.0 * far(first) / float(abs(first.legs[2, 3] - first.legs[0, 3])), 4):g}%"


def _legs(legs: Complexes) -> tuple[Leg, Leg] | None:
    if is_straight(legs).all():
        return None
    one, other = (Leg(out=complex(leg[1]), into=complex(leg[2])) for leg in legs)
    return one, other


def _usual(widths: Sequence[Sized]) -> Sized | None:
    """The width that most edges have."""
    if not widths:
        return None
    counted = Counter(w if isinstance(w, float | int) else tuple(sorted(w.items())) for w in widths)
    most = counted.most_common(1)[0][0]
    return dict(most) if isinstance(most, tuple) else float(most)


def _one_of(value: object, allowed: Sequence[Word]) -> Word | None:
    """The value, where it is one of the words of the format."""
    return next((word for word in allowed if word == value), None)
