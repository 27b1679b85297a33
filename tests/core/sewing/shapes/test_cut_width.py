"""How wide a piece lies on the cloth."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, nest_of

from notchwork.sewing.shapes.cut_width import cut_width


def width(**piece: Any) -> float:
    document: Document = {
        "notchwork": "1.0",
        "materials": {"felt": {"kind": "felt"}, "wool": {}},
        "pieces": {
            "part": {
                "allowance": 10,
                "outline": [
                    {"at": [0, 0], "edge": "hem"},
                    {"at": [300, 0], "edge": "side"},
                    {"at": [300, 400], "edge": "top"},
                    {"at": [0, 400], "edge": "center"},
                ],
                "grainline": [[50, 50], [50, 350]],
                "cut": [{"material": "wool"}],
                **piece,
            }
        },
    }
    nest = nest_of(document)
    return float(cut_width(nest, nest.pieces["part"])[0])


def test_across_the_grain_with_its_allowances() -> None:
    assert width() == pytest.approx(320)
    assert width(grainline=[[50, 50], [250, 50]]) == pytest.approx(420)


def test_opened_out_on_its_fold() -> None:
    assert width(edges={"center": {"fold": True}}) == pytest.approx(620)


def test_each_edge_has_its_own_allowance() -> None:
    assert width(edges={"side": {"allowance": 30}}) == pytest.approx(340)


def test_without_a_grain_it_is_turned_to_where_it_is_narrowest() -> None:
    assert width(grainline=[[50, 50], [250, 50]], grain="any") == pytest.approx(320)
    assert width(grainline=[[50, 50], [250, 50]], cut=[{"material": "felt"}]) == pytest.approx(320)


def test_on_the_bias_it_is_as_wide_as_its_diagonal() -> None:
    """A rectangle at 45°: (a + b) / √2 between the selvages, and the allowance once on either side."""
    assert width(grainline=[[50, 50], [250, 250]]) == pytest.approx(
        (300 + 400) / 2**0.5 + 2 * 10 / 2**0.5, abs=0.01
    )


def test_a_curve_is_measured_at_its_widest() -> None:
    """A half circle of radius 200 drawn as two quarter arcs: 400 across, 200 deep."""
    k = 200 * 0.5522847498
    outline = [
        {"at": [-200, 0], "edge": "straight"},
        {"at": [200, 0], "out": [200, k], "edge": "round"},
        {"at": [0, 200], "in": [k, 200], "out": [-k, 200]},
    ]
    outline[0]["in"] = [-200, k]
    assert width(outline=outline, grainline=[[0, 20], [0, 150]]) == pytest.approx(420, abs=0.1)
    assert width(outline=outline, grainline=[[-50, 50], [50, 50]]) == pytest.approx(220, abs=0.1)
