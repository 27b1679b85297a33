"""One piece of the pattern, from its shapes in every size and what was read on them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Literal, get_args

from notchwork.geometry import is_straight
from notchwork.model import Cut, Edge, Finish, GradedPoint, Mark, Notch, Piece, Sized, Strip
from notchwork.recognise.words.frame import Frame, one_of
from notchwork.recognise.words.ids import valid
from notchwork.recognise.words.piece_darts import darts_of, pleats_of
from notchwork.recognise.words.piece_lines import cutouts_of, inner_of
from notchwork.recognise.words.signs import Nick, Spotted
from notchwork.recognise.words.sized import sized
from notchwork.recognise.words.together import matched

Grain = Literal["lengthwise", "cross", "bias", "any"]
Kind = Literal["single", "double", "triple"]

KINDS: tuple[Kind, ...] = get_args(Kind)
GRAINS: tuple[Grain, ...] = get_args(Grain)
PIECE_USES: tuple[Literal["template", "guide"], ...] = ("template", "guide")
STRIP = ("lower", "end", "upper", "start")
SPACING = 8.0
"""mm between nicks where nothing is stated, as the format has it."""


def built(
    frame: Frame,
    name: str | None,
    folds: frozenset[int],
    allowances: Mapping[int, Sized],
    finishes: Mapping[int, Finish],
    cut: tuple[Cut, ...] | None,
    note: str | None,
) -> Piece:
    """The piece. ``allowances`` are widths by edge (mm), ``finishes`` those of edges that no seam takes."""
    drawn = frame.drawn
    usual = _usual([w for k, w in allowances.items() if k not in folds])
    facts = drawn.shape.facts
    strip = _strip(frame)
    grainline, grain = _grain(frame)
    several = len(drawn.shapes) > 1 or drawn.base is not None
    outlines = {str(size): frame.nodes(shape.outline) for size, shape in drawn.shapes.items()}
    return Piece(
        name=name,
        use=one_of(facts.get("use"), PIECE_USES),
        allowance=usual,
        grain=None if strip else grain,
        bias_to=str(facts["to"]) if facts.get("to") in drawn.edges else None,
        strip=strip,
        outline=None if several or strip else frame.nodes(drawn.shape.outline),
        outlines=outlines if several and not strip else None,
        edges=dict(_edges(frame, folds, allowances, finishes, usual)),
        notches=dict(_notches(frame)),
        darts=dict(darts_of(frame)),
        pleats=dict(pleats_of(frame)),
        inner=dict(inner_of(frame)),
        marks=dict(_marks(frame)),
        cutouts=dict(cutouts_of(frame)),
        grainline=None if strip else grainline,
        cut=cut,
        note=note,
    )


def _strip(frame: Frame) -> Strip | None:
    drawn = frame.drawn
    if drawn.shape.facts.get("kind") != "strip" or drawn.edges != STRIP:
        return None
    if not all(is_straight(shape.outline.cubics).all() for shape in drawn.shapes.values()):
        return None
    length, width = (
        sized({size: rim.length(edge) for size, rim in drawn.rims.items()}, 4) for edge in (0, 1)
    )
    grain = one_of(drawn.shape.facts.get("grain"), GRAINS)
    return Strip(width=width, length=length, grain=grain)


def _grain(frame: Frame) -> tuple[tuple[GradedPoint, GradedPoint] | None, Grain | None]:
    signs = frame.drawn.signs
    grain = one_of(frame.drawn.shape.facts.get("grain"), GRAINS)
    ends = {size: sign.grain for size, sign in signs.items() if sign.grain is not None}
    if not ends:
        return None, grain
    first = ends.get(frame.drawn.base) or next(iter(ends.values()))
    points = []
    for k, at in enumerate(first):
        rule = frame.shifts.rule({s: e[k] for s, e in ends.items()}, f"{frame.drawn.ident}_grain_{k + 1}")
        points.append(GradedPoint(at=at, grade=rule))
    return (points[0], points[1]), grain


def _edges(
    frame: Frame,
    folds: frozenset[int],
    allowances: Mapping[int, Sized],
    finishes: Mapping[int, Finish],
    usual: Sized | None,
) -> Iterator[tuple[str, Edge]]:
    for k, name in enumerate(frame.drawn.edges):
        width = allowances.get(k)
        own = None if width is None or width == usual or k in folds else width
        finish = finishes.get(k)
        if own is not None or k in folds or finish is not None:
            yield name, Edge(allowance=own, fold=k in folds, finish=finish)


def _notches(frame: Frame) -> Iterator[tuple[str, Notch]]:
    def kind(nick: Nick) -> tuple[int, int]:
        return nick.edge, len(nick.arcs)

    by_size = {size: sorted(s.nicks, key=lambda n: (n.edge, n.arc)) for size, s in frame.drawn.signs.items()}
    for found in matched(by_size, frame.drawn.base, lambda nick: nick.name, kind):
        first = next(iter(found.values()))
        edge = frame.drawn.edges[first.edge]
        spacing = first.spacing
        name = frame.name(valid(first.name) if first.name else f"{edge}_notch")
        yield (
            name,
            Notch(
                edge=edge,
                at=frame.place(first.edge, {size: nick.arc for size, nick in found.items()}),
                kind=_kind_of(len(first.arcs)),
                spacing=None if spacing is None or abs(spacing - SPACING) < 0.05 else round(spacing, 2),
                use="place" if first.place_only else None,
            ),
        )


def _marks(frame: Frame) -> Iterator[tuple[str, Mark]]:
    by_size = {size: signs.marks for size, signs in frame.drawn.signs.items()}

    def kind(mark: Spotted) -> str | None:
        return mark.kind

    for found in matched(by_size, frame.drawn.base, lambda mark: mark.name, kind):
        first = found.get(frame.drawn.base) or next(iter(found.values()))
        name = frame.name(valid(first.name) if first.name else "mark")
        rule = frame.shifts.rule({s: m.at for s, m in found.items()}, f"{frame.drawn.ident}_{name}")
        yield name, Mark(at=first.at, grade=rule, kind=first.kind)


def _kind_of(count: int) -> Kind:
    return KINDS[min(count, 3) - 1]


def _usual(widths: Sequence[Sized]) -> Sized | None:
    """The width that most edges have."""
    if not widths:
        return None
    counted = Counter(w if isinstance(w, float | int) else tuple(sorted(w.items())) for w in widths)
    most = counted.most_common(1)[0][0]
    return dict(most) if isinstance(most, tuple) else float(most)
