"""What holds of every layout; shapely is the reference for what overlaps, lies inside, and is how far apart."""

import math
from collections.abc import Sequence

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.pages.arrange import DoesNotFit, Placed, Shape, arranged, fits, islands
from notchwork.pages.arrange.shape import ROUND

WIDE, TALL = 190.0, 277.0
HAIR = 0.002
"""mm: coordinates are rounded to 1/1000 on the way."""
TURNS = st.sampled_from(["free", "quarter", "drawn"])


@st.composite
def outlines(draw: st.DrawFn, largest: float = 900.0) -> Shape:
    """Stars: as many corners as wished, dents too, somewhere on the plane."""
    corners = draw(st.integers(3, 9))
    wide, tall = draw(st.floats(5.0, largest)), draw(st.floats(5.0, largest))
    reach = np.array([draw(st.floats(0.2, 1.0)) for _ in range(corners)])
    z = reach * np.exp(2j * np.pi * np.arange(corners) / corners)
    at = complex(draw(st.integers(-500, 500)), draw(st.integers(-500, 500)))
    return Shape((z.real * wide / 2 + 1j * z.imag * tall / 2 + at,))


def polygon(shape: Shape, placed: Placed) -> shapely.Polygon:
    return shapely.union_all(
        [
            shapely.Polygon(np.stack([z.real, z.imag], axis=1))
            for z in (placed.turn * ring + placed.shift for ring in shape.rings)
        ]
    )


def apart(polygons: Sequence[shapely.Polygon], gap: float) -> bool:
    """Whether any two are as far apart as the gap."""
    tree = shapely.STRtree(polygons)
    for k, one in enumerate(polygons):
        for other in tree.query(one.buffer(gap)):
            if other > k:
                if one.distance(polygons[other]) < gap - 2 * ROUND - HAIR:
                    return False
                if one.buffer(-HAIR).intersects(polygons[other].buffer(-HAIR)):
                    return False
    return True


def inside(shape: shapely.Polygon, wide: float, tall: float, low: complex = 0j) -> bool:
    x0, y0, x1, y1 = shape.bounds
    return (
        min(x0 - low.real, y0 - low.imag) > -HAIR
        and x1 < low.real + wide + HAIR
        and y1 < low.imag + tall + HAIR
    )


@settings(deadline=None, max_examples=40)
@given(st.lists(outlines(160.0), max_size=7), st.sampled_from([0.0, 3.0, 10.0]), TURNS, st.booleans())
def test_pieces_on_sheets_and_rolls_are_whole_apart_and_each_is_there_once(
    shapes: list[Shape], gap: float, turn: str, roll: bool
) -> None:
    tall = math.inf if roll else TALL
    pages = arranged(shapes, WIDE, tall, gap, turn)
    assert sorted(each.group for page in pages for each in page) == list(range(len(shapes)))
    for page in pages:
        found = [polygon(shapes[each.group], each) for each in page]
        assert apart(found, gap)
        assert all(inside(each, WIDE, tall) for each in found)
        if turn == "quarter":
            assert all(each.turn in (1, 1j, -1, -1j) for each in page)
        if turn == "drawn":
            assert all(each.turn == 1 for each in page)
        assert all(abs(abs(each.turn) - 1.0) < 1e-9 for each in page)
    if roll and shapes:
        assert len(pages) == 1


@settings(deadline=None, max_examples=15)
@given(st.lists(outlines(), min_size=1, max_size=6), st.sampled_from([0.0, 5.0]), TURNS)
def test_islands_use_the_pages_that_pieces_reach_into_and_no_more_than_the_plain_grid(
    shapes: list[Shape], gap: float, turn: str
) -> None:
    found = islands(shapes, WIDE, TALL, gap, turn)
    assert sorted(each.group for island in found for each in island.placed) == list(range(len(shapes)))
    for island in found:
        polygons = [polygon(shapes[each.group], each) for each in island.placed]
        assert apart(polygons, gap)
        used = set()
        for column in range(-1, island.columns + 1):
            for row in range(-1, island.rows + 1):
                low = complex(column * WIDE, row * TALL)
                page = shapely.box(low.real, low.imag, low.real + WIDE, low.imag + TALL)
                if any(page.buffer(-0.005).intersects(each) for each in polygons):
                    used.add((column, row))
        assert used <= island.cells
        for column, row in island.cells - used:
            page = shapely.box(column * WIDE, row * TALL, (column + 1) * WIDE, (row + 1) * TALL)
            assert any(page.buffer(0.005).intersects(each) for each in polygons)
        assert {c for c, _ in island.cells} >= {0, island.columns - 1}
        assert {r for _, r in island.cells} >= {0, island.rows - 1}
        for placed, shape in zip(island.placed, polygons, strict=True):
            if fits(shapes[placed.group], WIDE, TALL, turn):
                assert any(inside(shape, WIDE, TALL, complex(c * WIDE, r * TALL)) for c, r in island.cells)
    assert sum(len(island.cells) for island in found) <= plain(shapes)


def plain(shapes: Sequence[Shape]) -> int:
    """Pages of a plain grid about each piece as drawn."""
    boxes = [(np.ptp(shape.points.real), np.ptp(shape.points.imag)) for shape in shapes]
    return sum(math.ceil(wide / WIDE) * math.ceil(tall / TALL) for wide, tall in boxes)


@settings(deadline=None, max_examples=10)
@given(st.lists(outlines(400.0), min_size=1, max_size=4), st.integers(-2000, 2000), st.integers(-2000, 2000))
def test_the_same_comes_out_every_time_wherever_pieces_lie_in_their_own_coordinates(
    shapes: list[Shape], x: int, y: int
) -> None:
    by = complex(x, y)
    moved = [Shape(tuple(ring + by for ring in shape.rings)) for shape in shapes]
    first, again, other = (islands(each, WIDE, TALL, 5.0) for each in (shapes, shapes, moved))
    assert first == again
    assert [island.cells for island in other] == [island.cells for island in first]
    for one, two in zip(first, other, strict=True):
        for a, b in zip(one.placed, two.placed, strict=True):
            assert a.group == b.group
            assert abs(a.turn - b.turn) < 1e-9
            assert abs(a.shift - (b.turn * by + b.shift)) < 0.001


def rectangle(wide: float, tall: float, at: complex = 0j) -> Shape:
    return Shape((np.array([0, wide, complex(wide, tall), 1j * tall]) + at,))


def test_nothing_makes_no_page() -> None:
    assert arranged([], WIDE, TALL, 5.0) == ()
    assert arranged([Shape(())], WIDE, math.inf, 5.0) == ()
    assert islands([], WIDE, TALL, 5.0) == ()
    assert islands([Shape(())], WIDE, TALL, 5.0) == ()
    (page,) = arranged([Shape(()), rectangle(10, 10)], WIDE, TALL, 5.0)
    assert [each.group for each in page] == [1]


def test_a_line_and_a_point_have_a_place() -> None:
    line, point = Shape((np.array([0, 60 + 80j]),)), Shape((np.array([7 + 7j]),))
    for gap in (0.0, 4.0):
        (page,) = arranged([line, point, rectangle(30, 30)], WIDE, TALL, gap)
        assert [each.group for each in page] == [0, 1, 2]
    (island,) = islands([Shape((np.array([0, 100.0, 250.0]),))], 100.0, 100.0, 0.0, "drawn")
    assert island.cells == {(0, 0), (1, 0), (2, 0)}


def test_what_fits_no_page_is_told_by_number() -> None:
    with pytest.raises(DoesNotFit) as told:
        arranged([rectangle(10, 10), rectangle(300, 200), rectangle(1000, 1000)], 250.0, math.inf, 5.0)
    assert told.value.groups == (2,)
    assert fits(rectangle(300, 200), 250.0, math.inf)
    assert not fits(rectangle(300, 200), 250.0, math.inf, "drawn")


def test_a_slanting_piece_that_fits_a_page_whole_is_not_split() -> None:
    # 310 mm long and 10 mm wide: only across a page of 190 x 277 mm (diagonal 335.9 mm).
    (island,) = islands([rectangle(310, 10)], WIDE, TALL, 5.0)
    assert island.cells == {(0, 0)}
    assert sum(len(island.cells) for island in islands([rectangle(310, 10)], WIDE, TALL, 5.0, "quarter")) == 2


def test_a_piece_as_large_as_the_page_fits_it() -> None:
    (island,) = islands([rectangle(WIDE, TALL, 0.1 + 0.3j)], WIDE, TALL, 5.0)
    assert island.cells == {(0, 0)}
    assert len(islands([rectangle(WIDE, TALL)] * 2, WIDE, TALL, 5.0)) == 2


@pytest.mark.slow
def test_thousands_of_pieces_are_laid() -> None:
    rng = np.random.default_rng(5)
    shapes = [rectangle(float(w), float(h)) for w, h in rng.uniform(20, 150, (2000, 2))]
    (roll,) = arranged(shapes, 914.0, math.inf, 5.0)
    found = [polygon(shapes[each.group], each) for each in roll]
    assert sorted(each.group for each in roll) == list(range(2000))
    assert apart(found, 5.0)
    length = max(each.bounds[3] for each in found)
    assert sum(each.area for each in found) / (914.0 * length) > 0.7
