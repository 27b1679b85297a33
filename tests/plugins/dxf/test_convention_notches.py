"""Notches of the convention. Layers 4 and 80 to 83, and their tags 30, 39 and 50, are from memory of ASTM D6673-10."""

from __future__ import annotations

import numpy as np
import pytest
from dxf_convention import Pattern, line, point, points, polyline, rectangle, seen, text, told
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.drawing import Stroke
from notchwork.formats import Read
from notchwork.model import Notch
from notchwork.sewing import Nest

CUT = rectangle(-10 - 10j, 210 + 310j)
SEWN = rectangle(0j, 200 + 300j)


def block(*parts: str, cut: str = polyline(1, CUT), sewn: str = polyline(14, SEWN)) -> Read:
    return Pattern({"FRONT": text("PIECE NAME: Front") + cut + sewn + "".join(parts)}).read()


def notches(done: Read) -> dict[str, Notch]:
    found = seen(done).pattern.pieces["front"].notches
    return {name: notch for name, notch in found.items() if notch is not None}


def ticks(done: Read) -> list[Stroke]:
    assert done.drawing is not None
    return [stroke for stroke in done.drawing.groups[0].strokes if stroke.meaning == "notch"]


def arc_of(done: Read, name: str) -> float:
    return float(Nest(seen(done).pattern).notches["front", name][0])


def test_a_notch_meets_the_sew_line_square_to_the_boundary() -> None:
    done = block(point(4, 210 + 120j))
    assert notches(done)["notch_1"].edge == "right"
    assert arc_of(done, "notch_1") == pytest.approx(120.0, abs=1e-6)
    assert told(done) == set()


def test_a_notch_with_a_direction_meets_it_in_that_direction() -> None:
    # 10 mm of allowance at 45 degrees move it by 10 mm.
    for angle in (225.0, 45.0):
        done = block(point(4, 210 + 120j, 5.0, 2.0, angle))
        assert arc_of(done, "notch_1") == pytest.approx(110.0, abs=1e-6)
        (tick,) = ticks(done)
        assert (tick.facts["angle"], tick.facts["width"]) == (angle, 2.0)


def test_an_angle_of_nought_without_a_depth_says_nothing() -> None:
    done = block(point(4, 100 + 310j, 0.0, 0.0, 0.0))
    assert notches(done)["notch_1"].edge == "top"
    assert arc_of(done, "notch_1") == pytest.approx(100.0, abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(st.floats(40.0, 260.0), st.floats(-60.0, 60.0), st.floats(0.5, 20.0), st.booleans(), st.booleans())
def test_the_foot_lies_on_the_sew_line_and_on_the_nick(
    up: float, lean: float, depth: float, inward: bool, clockwise: bool
) -> None:
    cut, sewn = (z[::-1] if clockwise else z for z in (CUT, SEWN))
    angle = lean + (180.0 if inward else 0.0)
    if angle == 0.0:
        angle = 360.0
    at = complex(210.0, up)
    done = block(point(4, at, depth, angle=angle), cut=polyline(1, cut), sewn=polyline(14, sewn))
    (tick,) = ticks(done)
    inner, outer = tick.cubics[0, 0], tick.cubics[0, 3]
    foot = outer - tick.facts["depth"] * (outer - inner) / abs(outer - inner)
    assert foot.real == pytest.approx(200.0, abs=1e-6)
    way = np.exp(1j * np.radians(angle))
    assert abs(((foot - at) * np.conj(way)).imag) < 1e-6
    # The tick points off the piece.
    assert (outer - inner).real > 0.0


@pytest.mark.parametrize(("apart", "kinds"), [(13.0, ["double"]), (13.1, ["single", "single"])])
def test_nicks_within_half_an_inch_on_one_edge_are_one_notch(apart: float, kinds: list[str]) -> None:
    # Facts D10: 1/4 to 1/2 in, 6 to 13 mm.
    done = block(point(4, 210 + 100j), point(4, complex(210, 100 + apart)))
    assert [notch.kind for notch in notches(done).values()] == kinds


def test_three_nicks_are_a_triple_and_a_fourth_begins_anew() -> None:
    done = block(points(4, [210 + 100j, 210 + 108j, 210 + 116j, 210 + 124j]))
    assert [notch.kind for notch in notches(done).values()] == ["triple", "single"]


def test_nicks_round_a_corner_or_of_other_shapes_stay_apart() -> None:
    done = block(point(4, 196 + 310j), point(4, 210 + 296j), point(4, 210 + 100j), point(80, 210 + 106j))
    assert [notch.kind for notch in notches(done).values()] == ["single"] * 4
    assert "dxf/notch-shape" in told(done)


def test_names_keep_neighbours_apart() -> None:
    near = point(4, 210 + 100j) + point(4, 210 + 108j)
    done = block(
        near, text("NOTCH: pitch", 15, 210 + 100j), text("NOTCH: pocket | use=place", 15, 210 + 108j)
    )
    assert {name: (n.kind, n.use) for name, n in notches(done).items()} == {
        "pitch": ("single", None),
        "pocket": ("single", "place"),
    }
    assert notches(block(near, text("NOTCH: pitch", 15, 210 + 104j)))["pitch"].kind == "double"


@pytest.mark.parametrize("layer", [4, 80, 81, 82, 83])
def test_every_layer_of_notches(layer: int) -> None:
    done = block(point(layer, 210 + 100j))
    assert list(notches(done)) == ["notch_1"]
    assert ("dxf/notch-shape" in told(done)) == (layer != 4)


def test_a_notch_off_the_outline_is_told() -> None:
    done = block(point(4, 220 + 100j), point(4, 900 + 100j))
    assert arc_of(done, "notch_1") == pytest.approx(100.0)
    off = [finding for finding in done.findings if finding.rule.id == "dxf/notch-off"]
    assert [finding.values["off"].mm for finding in off] == [
        pytest.approx(10.0), pytest.approx(690.0),
    ]  # fmt: skip
    assert len(notches(done)) == 1


def test_on_a_cut_line_a_notch_is_cut_inward() -> None:
    done = block(point(4, 210 + 100j, 4.0), sewn="")
    (tick,) = ticks(done)
    assert tick.cubics[0, [0, 3]].tolist() == [206 + 100j, 210 + 100j]
    assert arc_of(done, "notch_1") == pytest.approx(110.0)


def test_notches_at_a_mirror_line_stay_on_their_edges() -> None:
    # Facts A20: half a piece; what lies on the fold's line is no notch of the fold.
    half = rectangle(0j, 200 + 300j)
    done = block(
        line(6, 0j, 300j),
        point(4, 40 + 310j),
        cut=polyline(1, rectangle(-10j, 210 + 310j)),
        sewn=polyline(14, half),
    )
    assert notches(done)["notch_1"].edge == "top"
    assert arc_of(done, "notch_1") in (pytest.approx(40.0), pytest.approx(160.0))


def test_unnamed_notches_are_one_in_all_sizes() -> None:
    blocks = {
        f"FRONT-{size}": text("PIECE NAME: Front")
        + text(f"SIZE: {size}")
        + polyline(1, rectangle(0j, complex(wide, 300)))
        + points(4, [complex(wide, 100), complex(wide / 2, 300)])
        for size, wide in (("10", 190.0), ("12", 200.0))
    }
    nest = Nest(seen(Pattern(blocks).read()).pattern)
    found = {name: nest.notches["front", name].tolist() for name in ("notch_1", "notch_2")}
    assert sorted(found.values()) == [[95.0, 100.0], [100.0, 100.0]]
