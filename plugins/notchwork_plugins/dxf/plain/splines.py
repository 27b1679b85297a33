"""SPLINE: polynomial curves up to degree 3 as the very same cubics, all others within 0.001 mm; all of a drawing at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.geometry.cubics import Complexes, Floats, Ints
from notchwork_plugins.dxf.file.entity import Entity
from notchwork_plugins.dxf.plain.bezier import CLOSE, approximated, blossomed, raised, spans
from notchwork_plugins.dxf.plain.curve import NOTHING, Curves
from notchwork_plugins.dxf.plain.fitted import through

_CLOSED, _PERIODIC = 1, 2
_HIGHEST = 15
"""Curves of a higher degree are noise, and their sums no longer exact."""


@dataclass(frozen=True, eq=False)
class _Spans:
    """The spans of one curve: its number, and for each span the control points, weights and knots that it hangs on."""

    number: int
    points: Complexes
    weights: Floats | None
    knots: Floats


def has_fit_points_alone(entity: Entity) -> bool:
    """Whether a SPLINE leaves it open how it runs between its points."""
    return entity.kind == "SPLINE" and 10 not in entity.codes and 11 in entity.codes


def splines(entities: Sequence[Entity], units: Floats) -> Curves:
    """SPLINE. ``units`` (m,) says how many mm a unit will be for each."""
    parts: dict[int, Complexes] = {}
    faults: dict[int, str] = {}
    alike: dict[tuple[int, bool], list[_Spans]] = {}
    for number, entity in enumerate(entities):
        if has_fit_points_alone(entity):
            parts[number] = _through(entity)
            continue
        try:
            found = _spans(number, entity)
        except ValueError as error:
            faults[number] = str(error)
        else:
            degree = found.points.shape[1] - 1
            alike.setdefault((degree, found.weights is not None), []).append(found)
    for (degree, _), same in alike.items():
        parts |= _cubics(degree, same, units)
    each = [parts.get(number, NOTHING) for number in range(len(entities))]
    for number, cubics in enumerate(each):
        if not len(cubics):
            faults.setdefault(number, "it has no length")
    closed = [
        bool(entity.flag(70) & (_CLOSED | _PERIODIC)) and len(own) > 0 and bool(own[0, 0] == own[-1, 3])
        for entity, own in zip(entities, each, strict=True)
    ]
    return Curves(np.concatenate([NOTHING, *each]), [len(own) for own in each], closed, faults)


def _through(entity: Entity) -> Complexes:
    points = _points(entity, 11)
    start, end = (entity.point(code) if code in entity.codes else None for code in (12, 13))
    return through(points, start, end, bool(entity.flag(70) & _CLOSED))


def _points(entity: Entity, code: int) -> Complexes:
    x, y = entity.numbers(code), entity.numbers(code + 10)
    if len(x) != len(y):
        raise ValueError("a point has no second coordinate")
    points: Complexes = np.array(x) + 1j * np.array(y)
    return points


def _spans(number: int, entity: Entity) -> _Spans:
    """Raises ValueError, with why as words, for a curve that cannot be."""
    degree = entity.flag(71, 3)
    points, knots = _points(entity, 10), np.array(entity.numbers(40))
    weights = np.array(entity.numbers(41))
    if not 1 <= degree <= _HIGHEST:
        raise ValueError(f"its degree is {degree}")
    if len(points) <= degree:
        raise ValueError(f"it has {len(points)} control points, and needs {degree + 1} at least")
    if not len(knots):
        # The usual knots where none are stated: all spans alike, the ends reached.
        knots = np.clip(np.arange(len(points) + degree + 1) - degree, 0, len(points) - degree).astype(float)
    if len(knots) != len(points) + degree + 1:
        raise ValueError(f"it has {len(knots)} knots, and needs {len(points) + degree + 1}")
    if (np.diff(knots) < 0.0).any():
        raise ValueError("its knots do not grow")
    if len(weights) not in (0, len(points)):
        raise ValueError(f"it has {len(weights)} weights for {len(points)} control points")
    if len(weights) and (weights <= 0.0).any():
        raise ValueError("a weight is not above 0")
    at = spans(knots, degree)
    if not len(at):
        raise ValueError("it has no length")
    own = at[:, None] + np.arange(-degree, 1)
    about = at[:, None] + np.arange(1 - degree, degree + 1)
    # Weights move nothing off a straight line.
    rational = degree > 1 and len(weights) > 0 and bool(np.ptp(weights) > 1e-12 * weights.max())
    return _Spans(number, points[own], weights[own] if rational else None, knots[about])


def _cubics(degree: int, same: Sequence[_Spans], units: Floats) -> dict[int, Complexes]:
    """The cubics of curves of one degree, all with weights or all without, by their numbers."""
    numbers = np.array([found.number for found in same])
    owner: Ints = np.repeat(numbers, [len(found.points) for found in same])
    points = np.concatenate([found.points for found in same])
    knots = np.concatenate([found.knots for found in same])
    if same[0].weights is None:
        beziers = blossomed(points, knots, degree)
        if degree <= 3:
            cubics = raised(beziers)
        else:
            cubics, which = approximated(beziers, np.ones(beziers.shape), CLOSE / units[owner])
            owner = owner[which]
    else:
        weights = np.concatenate([found.weights for found in same if found.weights is not None])
        made = blossomed(np.stack([points * weights, weights], axis=-1), knots, degree)
        weighted, weight = made[..., 0], made[..., 1].real
        cubics, which = approximated(weighted / weight, weight, CLOSE / units[owner])
        owner = owner[which]
    ends = np.searchsorted(owner, numbers, side="right")
    return {
        number: cubics[start:end]
        for number, start, end in zip(
            numbers.tolist(), np.append(0, ends[:-1]).tolist(), ends.tolist(), strict=True
        )
    }
