"""Cut lines from the allowances of edges: which width holds where, folds, and corners by statement."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from drawn import small_patterns
from hypothesis import given, settings
from patterns import Document, nest_of

from notchwork.geometry import nearest
from notchwork.sewing import Nest
from notchwork.sewing.pieces.allowances import allowance
from notchwork.sewing.shapes.cutlines import CutLine, cut_lines

Damage = Callable[[Callable[[Document], None]], Nest]


def test_every_point_lies_at_its_edges_allowance(smock_nest: Nest) -> None:
    """Within 0.01 mm; nothing is added on a fold or at the bound neck."""
    lines = cut_lines(smock_nest)
    assert set(lines) == {(piece, size) for piece in smock_nest.pieces for size in range(3)}
    for (piece, size), line in lines.items():
        graded = smock_nest.pieces[piece]
        owner = np.array(line.edges)
        assert line.swallowed == ()
        for edge in graded.edges:
            mine = line.points[owner == edge]
            assert len(mine), (piece, edge)
            far = nearest(smock_nest.cubics_of(graded.lines[edge], size), mine).distance
            assert far == pytest.approx(np.full(len(far), allowance(graded, edge)[size]), abs=0.01)


def test_an_edges_own_allowance_goes_before_the_piece_and_sizes_may_differ(damaged: Damage) -> None:
    def change(document: Document) -> None:
        document["pieces"]["front"]["edges"]["side"] = {"allowance": {"S": 10, "M": 15, "L": 20}}
        document["pieces"]["sleeve"]["allowance"] = None
        del document["pieces"]["sleeve"]["allowance"]

    nest = damaged(change)
    front = nest.pieces["front"]
    assert allowance(front, "side").tolist() == [10, 15, 20]
    assert allowance(front, "shoulder").tolist() == [12, 12, 12]
    assert allowance(front, "center").tolist() == [0, 0, 0]
    assert allowance(nest.pieces["sleeve"], "cap").tolist() == [0, 0, 0]


@pytest.mark.parametrize("slant", [-100, -60, -5, 0, 5, 60, 100])
@pytest.mark.parametrize("turned", [False, True])
def test_nothing_is_cut_beyond_a_fold(slant: float, turned: bool) -> None:
    """A hem that slants away from its fold is cut as far as the fold, where the halves of the hem's cut line meet."""
    corners = {"hem": [0, 0], "right": [200, slant], "top": [200, 300], "fold": [0, 300 - slant / 2]}
    outline = [{"at": at, "edge": edge} for edge, at in corners.items()]
    if turned:
        edges = [*corners][-1:] + [*corners][:-1]
        outline = [{"at": at, "edge": edge} for edge, at in zip(edges, corners.values(), strict=True)][::-1]
    nest = nest_of(
        {
            "notchwork": "1.0",
            "pieces": {
                "a": {
                    "outline": outline,
                    "allowance": 10,
                    "edges": {"hem": {"allowance": 30}, "fold": {"fold": True}},
                }
            },
        }
    )
    line = cut_lines(nest)["a", 0]
    assert line.points.real.min() >= -1e-6
    on = np.sort(line.points.imag[np.abs(line.points.real) < 1e-6])
    # The hem's line, 30 mm below, meets the fold 30 / cos(slant) below its end; so does the top's, 10 mm above.
    assert on[0] == pytest.approx(-30 * abs(200 + 1j * slant) / 200)
    assert on[-1] == pytest.approx(300 - slant / 2 + 10 * abs(200 + 0.5j * slant) / 200)


@settings(max_examples=40, deadline=None)
@given(small_patterns())
def test_no_half_is_cut_beyond_its_fold(document: Document) -> None:
    nest = nest_of(document)
    for (piece, size), line in cut_lines(nest).items():
        for fold in nest.pieces[piece].folds:
            along = nest.cubics_of(nest.pieces[piece].lines[fold], size)
            # Seen along the fold, upward, the half lies on its right.
            low, high = sorted((along[0, 0], along[-1, 3]), key=lambda z: z.imag)
            beside = ((line.points - low) / (high - low) * abs(high - low)).imag
            assert beside.max() <= 1e-6


def hem_corner(line: CutLine) -> np.ndarray[Any, np.dtype[np.complex128]]:
    """What lies beside and below the side's lower corner of the front."""
    return line.points[(line.points.real > 220) & (line.points.imag < 30)]


def flared(document: Document) -> None:
    """The side runs out towards the hem, so that a hem that is turned up would catch."""
    document["pieces"]["front"]["outline"][5]["at"] = [290, 0]


def test_a_hem_that_is_turned_up_mirrors_the_side(damaged: Damage) -> None:
    def turned(document: Document) -> None:
        flared(document)
        document["pieces"]["front"]["edges"]["hem"]["cut_corner"] = "turned_up"

    plain, up = (cut_lines(damaged(change), ["front"])["front", 1] for change in (flared, turned))
    assert hem_corner(plain).real.max() > 302
    below = hem_corner(up)
    deepest = below[below.imag < -29.9].real.max()
    # Folded up at y = 0, the deepest corner lies on the side's own cut line, 30 mm above the hem.
    side = cut_lines(damaged(turned), ["front"])["front", 1]
    above = side.points[np.array(side.edges) == "side"]
    slope = np.polyfit(above.imag, above.real, 1)
    assert deepest == pytest.approx(np.polyval(slope, 30.0), abs=0.2)


def test_a_corner_is_squared_by_its_node(damaged: Damage) -> None:
    def pointed(document: Document) -> None:
        document["pieces"]["front"]["outline"][3]["at"] = [230, 575]

    def squared(document: Document) -> None:
        pointed(document)
        document["pieces"]["front"]["outline"][3]["cut_corner"] = "squared"

    plain, cut = (cut_lines(damaged(change), ["front"])["front", 1] for change in (pointed, squared))
    assert np.array_equal(plain.points, cut.points) or cut.points.real.max() <= plain.points.real.max()
    assert len(cut.points) != len(plain.points)


def test_a_right_angle_beside_a_fold_may_be_right_but_for_rounding(damaged: Damage) -> None:
    def change(document: Document) -> None:
        document["pieces"]["front"]["outline"][0]["at"] = [6e-14, 0]

    line = cut_lines(damaged(change), ["front"])["front", 1]
    assert np.isfinite(line.points).all()
    assert np.abs(line.points).max() < 700
