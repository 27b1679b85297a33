"""Darts and pleats of a piece, in all sizes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from notchwork.geometry import is_straight
from notchwork.model import Dart, GradedPoint, Leg, Pleat
from notchwork.recognise.words.frame import Frame
from notchwork.recognise.words.ids import valid
from notchwork.recognise.words.signs import Folded, Wedge
from notchwork.recognise.words.sized import sized
from notchwork.recognise.words.together import matched

Complexes = NDArray[np.complex128]


def darts_of(frame: Frame) -> Iterator[tuple[str, Dart]]:
    by_size = {size: sorted(s.wedges, key=_dart_order) for size, s in frame.drawn.signs.items()}
    for found in matched(by_size, frame.drawn.base, lambda wedge: wedge.name, lambda wedge: wedge.edge):
        base = frame.drawn.base if frame.drawn.base in found else next(iter(found))
        first = found[base]
        edge = frame.drawn.edges[first.edge] if first.edge is not None else None
        name = frame.name(valid(first.name) if first.name else f"{edge or 'double'}_dart")
        press = first.press if first.press in frame.drawn.edges else None
        if first.edge is None:
            yield name, _double_pointed(frame, found, first, name, press)
            continue
        apex = {size: complex(wedge.legs[0, 3]) for size, wedge in found.items()}
        feet = [frame.place(first.edge, {s: w.feet[k] for s, w in found.items()}) for k in (0, 1)]
        yield (
            name,
            Dart(
                edge=edge,
                feet=(feet[0], feet[1]),
                apex=apex[base],
                grade=frame.shifts.rule(apex, f"{frame.drawn.ident}_{name}"),
                legs=_legs(first.legs),
                press=press,
            ),
        )


def _double_pointed(
    frame: Frame, found: Mapping[str | None, Wedge], first: Wedge, name: str, press: str | None
) -> Dart:
    apexes = []
    for k, leg in enumerate((0, 2)):
        at = {size: complex(wedge.legs[leg, 3]) for size, wedge in found.items()}
        rule = frame.shifts.rule(at, f"{frame.drawn.ident}_{name}_{k + 1}")
        apexes.append(GradedPoint(at=complex(first.legs[leg, 3]), grade=rule))
    width = {size: float(abs(w.legs[0, 0] - w.legs[1, 0])) for size, w in found.items()}
    return Dart(
        apexes=(apexes[0], apexes[1]),
        width=sized(width, 4),
        at=_widest(found.values(), first),
        press=press,
    )


def pleats_of(frame: Frame) -> Iterator[tuple[str, Pleat]]:
    def kind(pleat: Folded) -> int:
        return pleat.edge

    by_size = {size: sorted(s.pleats, key=lambda p: (p.edge, p.low)) for size, s in frame.drawn.signs.items()}
    for found in matched(by_size, frame.drawn.base, lambda pleat: pleat.name, kind):
        first = next(iter(found.values()))
        edge = frame.drawn.edges[first.edge]
        folds = [frame.place(first.edge, dict(arcs)) for arcs in _ends(found)]
        name = frame.name(valid(first.name) if first.name else f"{edge}_pleat")
        to = first.to if first.to in frame.drawn.edges else None
        yield name, Pleat(edge=edge, folds=(folds[0], folds[1]), to=to)


def _ends(found: Mapping[str | None, Folded]) -> list[list[tuple[str | None, float]]]:
    return [[(s, p.low) for s, p in found.items()], [(s, p.high) for s, p in found.items()]]


def _dart_order(wedge: Wedge) -> tuple[int, float]:
    return (-1 if wedge.edge is None else wedge.edge, min(wedge.feet))


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
