"""What a group covers: shapely is the reference."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.demo.example import example
from notchwork.document import read_pattern
from notchwork.draw import draw_pattern
from notchwork.drawing import Dot, Group, Stroke, Text
from notchwork.geometry import circle, flatten, lines
from notchwork.pages.arrange import Shape, shape_of
from notchwork.pages.arrange.shape import AROUND, BESIDE, REACHES
from notchwork.sewing import Nest


def area_of(shape: Shape) -> shapely.Geometry:
    return shapely.union_all([shapely.Polygon(np.stack([z.real, z.imag], axis=1)) for z in shape.rings])


def drawn(group: Group) -> shapely.Geometry:
    """All lines, points and boxes of words."""
    runs = [flatten(stroke.cubics, 0.1).points for stroke in group.strokes if len(stroke.cubics)]
    parts: list[shapely.Geometry] = [shapely.LineString(np.stack([z.real, z.imag], axis=1)) for z in runs]
    parts += [shapely.Polygon([(z.real, z.imag) for z in text.box]) for text in group.texts]
    parts += [shapely.Point(dot.at.real, dot.at.imag) for dot in group.dots]
    return shapely.union_all(parts)


def test_all_that_is_drawn_on_the_example_lies_inside_and_little_else() -> None:
    pattern = read_pattern(example("sound.pattern.json"), "example").pattern
    assert pattern is not None
    for group in draw_pattern(Nest(pattern)).groups:
        shape = area_of(shape_of(group))
        ink = drawn(group)
        assert ink.buffer(AROUND - 0.05, quad_segs=3).within(shape), group.name
        corners = shapely.points([(z.real, z.imag) for z in shape_of(group).points])
        far = shapely.distance(corners, ink)
        assert far.max() <= 2 * BESIDE, group.name
        if not group.texts or len(shapely.get_parts(ink.buffer(AROUND))) == 1:
            assert far.max() <= REACHES, group.name


def test_a_closed_line_is_filled_and_so_are_lines_that_close_end_to_end() -> None:
    corners = [0, 100, 100 + 60j, 60j]
    closed = Group("a", strokes=(Stroke(lines(corners, closed=True), closed=True),))
    ends = [*corners, 0]
    edges = Group("b", strokes=tuple(Stroke(lines([a, b])) for a, b in pairwise(ends)))
    for group in (closed, edges):
        shape = area_of(shape_of(group))
        assert shapely.box(0, 0, 100, 60).buffer(AROUND - 0.05).within(shape)
        assert shape.within(shapely.box(-REACHES, -REACHES, 100 + REACHES, 60 + REACHES))


def test_many_sizes_that_cross_cover_what_each_of_them_does() -> None:
    """Against shapely's union of the filled outlines; they have different corners in common, and lines all over each other."""
    rings = [[0, 90j, 60 + k + (90 + 0.7 * k) * 1j, 70 + 3 * (k % 7)] for k in range(50)]
    nest = Group("nest", tuple(Stroke(lines(ring, closed=True), closed=True) for ring in rings))
    filled = shapely.union_all([shapely.Polygon([(z.real, z.imag) for z in map(complex, r)]) for r in rings])
    shape = area_of(shape_of(nest))
    assert filled.buffer(AROUND - 0.05).within(shape)
    assert shape.within(filled.buffer(REACHES))


def test_an_open_line_covers_no_more_than_itself() -> None:
    shape = area_of(shape_of(Group("a", strokes=(Stroke(lines([0, 100, 100 + 80j])),))))
    assert shape.area < 2 * REACHES * 190
    assert not shape.contains(shapely.Point(50, 40))


def test_the_groups_own_shift_plays_no_part() -> None:
    stroke = Stroke(circle(5 + 5j, 20.0), closed=True)
    here, moved = (shape_of(Group("a", strokes=(stroke,), shift=shift)) for shift in (0j, 300 - 20j))
    assert np.array_equal(here.points, moved.points)


def test_words_beside_an_outline_belong_to_it_and_words_far_off_do_not() -> None:
    stroke = Stroke(lines([0, 100, 100 + 60j, 60j], closed=True), closed=True)
    near = Group("a", strokes=(stroke,), texts=(Text(110 + 30j, "hem", 5.0),))
    far = Group("a", strokes=(stroke,), texts=(Text(200 + 30j, "hem", 5.0),))
    assert len(shape_of(near).rings) == 1
    assert len(shape_of(far).rings) == 2
    for group in (near, far):
        assert drawn(group).within(area_of(shape_of(group)))


def test_a_point_alone_and_nothing_at_all() -> None:
    shape = area_of(shape_of(Group("a", dots=(Dot(3 + 4j),))))
    assert shape.contains(shapely.Point(3, 4))
    assert shape.area == pytest.approx(np.pi * AROUND**2, abs=np.pi * REACHES**2)
    assert shape_of(Group("a")).rings == ()


@st.composite
def curves(draw: st.DrawFn) -> Stroke:
    """Cubics one after another, as wild as they come."""
    count = draw(st.integers(1, 5))
    numbers = draw(st.lists(st.floats(-200, 200), min_size=6 * count + 2, max_size=6 * count + 2))
    z = np.array(numbers[::2]) + 1j * np.array(numbers[1::2])
    return Stroke(np.stack([z[3 * k : 3 * k + 4] for k in range(count)]))


@settings(deadline=None, max_examples=60)
@given(st.lists(curves(), min_size=1, max_size=3))
def test_whatever_is_drawn_lies_inside(strokes: list[Stroke]) -> None:
    shape = area_of(shape_of(Group("a", strokes=tuple(strokes))))
    for stroke in strokes:
        z = flatten(stroke.cubics, 0.01).points
        at = shapely.points(np.stack([z.real, z.imag], axis=1))
        shapely.prepare(shape)
        assert shapely.contains(shape, at).all()
        assert shapely.distance(shape.boundary, at).min() > AROUND - 0.05
