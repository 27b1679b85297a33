"""The laws of the cut line, asked of outlines good and odd."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from core.geometry.drawn import blob, polygon
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from notchwork.geometry import (
    Corner,
    Offset,
    area,
    circle,
    flatten,
    lengths,
    lines,
    mirror,
    nearest,
    offset_outline,
    offset_outlines,
    reverse,
)
from notchwork.geometry.offset import outlines, simple

TOL = 0.01
WIDTHS = [0.0, 5.0, 10.0, 12.0, 30.0]


def distances(edges, z):
    return np.stack([nearest(edge, z).distance for edge in edges], axis=1)


def check_laws(edges, widths, cut: Offset) -> None:
    widths = np.asarray(widths, dtype=float)
    # Each point that belongs to an edge lies at that edge's allowance.
    own = np.flatnonzero(cut.edges >= 0)
    away = distances(edges, cut.points[own])[np.arange(len(own)), cut.edges[own]]
    assert np.abs(away - widths[cut.edges[own]]).max(initial=0.0) <= TOL

    # A corner's construction stays within three of the larger allowance of its corner.
    corners = np.array([edge[0, 0] for edge in edges])
    limits = 3.0 * np.maximum(widths, np.roll(widths, 1))
    built = cut.points[cut.edges < 0]
    inner = np.concatenate([edge[1:, 0] for edge in edges])
    if not len(inner):
        assert ((abs(built[:, None] - corners) <= limits + TOL).any(axis=1)).all()

    # No place on the cut line is nearer to an edge than the smaller of its allowance and the nearest edge's.
    ahead = np.roll(cut.points, -1)
    z = (cut.points[:, None] + (ahead - cut.points)[:, None] * np.array([0.0, 0.3, 0.6])).ravel()
    away = distances(edges, z)
    # The cut line itself is only known within TOL, so two edges that near alike are both nearest.
    close = away <= away.min(axis=1, keepdims=True) + TOL
    nearest_width = np.where(close, widths, np.inf).min(axis=1)
    needed = np.minimum(widths, nearest_width[:, None])
    assert (away - needed).min() >= -TOL

    # The cut line is simple, and every edge that owns nothing is named.
    shape = shapely.Polygon(np.stack([cut.points.real, cut.points.imag], axis=1))
    assert shape.is_valid
    assert set(cut.swallowed) == set(range(len(edges))) - set(cut.edges.tolist())
    assert np.sign(area(lines(cut.points, closed=True))) == np.sign(area(np.concatenate(edges)))


@given(st.integers(0, 10**6), st.integers(3, 8), st.data())
@settings(max_examples=40, deadline=None)
def test_the_laws_hold_for_outlines_of_straight_and_curved_edges(seed, corners, data):
    edges = blob(np.random.default_rng(seed), corners)
    assume(edges is not None)
    widths = data.draw(st.lists(st.sampled_from(WIDTHS), min_size=corners, max_size=corners))
    if data.draw(st.booleans()):
        edges, widths = [reverse(edge) for edge in edges[::-1]], widths[::-1]
    cut = offset_outline(edges, widths)
    check_laws(edges, widths, cut)
    for number in cut.swallowed:
        # Swallowed is only what others cover: no place on the edge's own line is on the outside of them all.
        assert lengths(edges[number]).sum() <= 2 * widths[number] or covered(edges, widths, cut, number)


def covered(edges, widths, cut, number) -> bool:
    flat = flatten(edges[number], 0.01).points
    along = np.diff(flat)
    out = 1.0 if area(np.concatenate(edges)) < 0 else -1.0
    feet = (flat[:-1] + flat[1:]) / 2 + out * 1j * widths[number] * along / abs(along)
    inside = shapely.Polygon(np.stack([cut.points.real, cut.points.imag], axis=1)).buffer(0.02)
    return bool(shapely.contains_xy(inside, feet.real, feet.imag).all())


SQUARE = [0, 100, 100 + 80j, 80j]
ELL = [0, 100, 100 + 40j, 40 + 40j, 40 + 100j, 100j]
NICK = [0, 100, 100 + 80j, 55 + 80j, 50 + 60j, 45 + 80j, 80j]


def test_without_allowances_the_outline_comes_back():
    cut = offset_outline(polygon(SQUARE), [0, 0, 0, 0])
    assert cut.points.tolist() == SQUARE
    assert cut.edges.tolist() == [0, 1, 2, 3]
    assert cut.swallowed == ()
    round_ = offset_outline([circle(0, 50)[:12], circle(0, 50)[12:]], [0, 0])
    assert abs(round_.points) == pytest.approx(50, abs=1e-6)


def test_a_rectangle_grows_by_each_edge_s_own_allowance():
    cut = offset_outline(polygon(SQUARE), [30, 12, 0, 5])
    assert shapely.Polygon([(z.real, z.imag) for z in cut.points]).bounds == (-5, -30, 112, 80)
    assert area(lines(cut.points, closed=True)) == pytest.approx(117 * 110)


def test_the_same_outline_walked_the_other_way_has_the_same_cut_line():
    there, back = polygon(ELL), [reverse(edge) for edge in polygon(ELL)[::-1]]
    one = offset_outline(there, [10, 12, 0, 15, 10, 30])
    two = offset_outline(back, [30, 10, 15, 0, 12, 10])
    assert set(np.round(one.points, 6)) == set(np.round(two.points, 6))
    assert [5 - edge if edge >= 0 else -1 for edge in two.edges.tolist()].count(
        3
    ) == one.edges.tolist().count(3)


@pytest.mark.parametrize(
    "widths", [[10] * 6, [10, 12, 0, 15, 10, 30], [5, 5, 30, 10, 5, 5], [0, 0, 10, 30, 0, 0]]
)
def test_at_an_inner_corner_both_lines_meet(widths):
    cut = offset_outline(polygon(ELL), widths)
    check_laws(polygon(ELL), widths, cut)
    assert cut.swallowed == ()
    assert 40 + widths[3] + 1j * (40 + widths[2]) in np.round(cut.points, 6)


def test_a_nick_narrower_than_the_allowance_is_said_to_be_swallowed():
    cut = offset_outline(polygon(NICK), [10] * 7)
    assert cut.swallowed == (3, 4)
    check_laws(polygon(NICK), [10] * 7, cut)
    assert offset_outline(polygon(NICK), [1] * 7).swallowed == ()


def test_a_mouth_that_the_allowances_close_leaves_no_hole():
    horseshoe = [0, 100, 100 + 100j, 52 + 100j, 52 + 90j, 80 + 90j, 80 + 20j, 20 + 20j, 20 + 90j, 48 + 90j, 48 + 100j, 100j]  # fmt: skip
    cut = offset_outline(polygon(horseshoe), [5] * 12)
    assert area(lines(cut.points, closed=True)) == pytest.approx(110 * 110)
    assert set(cut.swallowed) == {3, 4, 5, 6, 7, 8, 9}


@pytest.mark.parametrize("radius", [3, 9, 11, 40])
@pytest.mark.parametrize("width", [10, 30])
def test_a_hollow_tighter_than_the_allowance(radius, width):
    hollow = reverse(circle(50 + 80j, radius)[12:])
    edges = [*polygon([0, 100, 100 + 80j, 50 + radius + 80j, 50 - radius + 80j, 80j])]
    edges[3] = mirror(hollow, 0 + 80j, 100 + 80j)
    edges[3] = reverse(circle(50 + 80j, radius)[12:])
    widths = [width] * 6
    check_laws(edges, widths, offset_outline(edges, widths))


def test_a_bump_tighter_than_its_allowance_is_a_wide_arc():
    bump = circle(50 + 80j, 3)[:12]
    edges = [*polygon([0, 100, 100 + 80j, 53 + 80j, 47 + 80j, 80j])]
    edges[3] = bump
    cut = offset_outline(edges, [30] * 6)
    check_laws(edges, [30] * 6, cut)
    assert abs(cut.points[cut.edges == 3] - 50 - 80j) == pytest.approx(33, abs=TOL)


@pytest.mark.parametrize("lift", [0.0, 1e-9, 0.001, 1.0, -1e-9, -0.001, -1.0])
@pytest.mark.parametrize("widths", [(10, 10), (10, 30), (30, 10), (0, 12), (12, 0)])
def test_a_change_of_width_at_a_nearly_straight_joint_is_a_step(lift, widths):
    edges = polygon([0, 100, 100 + 80j, 50 + (80 + lift) * 1j, 80j])
    every = [10, 10, *widths, 10]
    cut = offset_outline(edges, every)
    check_laws(edges, every, cut)
    assert cut.swallowed == ()
    near = cut.points[abs(cut.points.real - 50) < 25]
    assert near.imag.max() < 80 + abs(lift) + 30 + TOL


def test_a_mitre_is_cut_off_at_three_allowances():
    needle = polygon([0, 200, 10j])
    cut = offset_outline(needle, [10] * 3)
    tip = cut.points[(cut.points.real > 150) & (cut.edges < 0)]
    assert abs(tip - 200) == pytest.approx([30, 30])


def test_a_squared_corner_ends_square_to_its_stitch_line():
    edges = polygon([0, 100, 20 + 80j])  # 45 degrees at 0 and 100, no less
    squared = offset_outline(edges, [10, 12, 10], [Corner.MITRED, Corner.SQUARED, Corner.MITRED], [-1, 0, -1])
    tip = squared.points[np.flatnonzero(squared.edges == 0)[-1] + 1 :][:2]
    assert tip[0].imag == pytest.approx(-10)
    assert tip[1] == pytest.approx(complex(tip[0].real, 0.0))
    assert tip[1].real == pytest.approx(100 + 12 / np.sin(np.pi / 4))
    mitred = offset_outline(edges, [10, 12, 10])
    assert area(lines(mitred.points, closed=True)) > area(lines(squared.points, closed=True))
    other = offset_outline(edges, [10, 12, 10], [Corner.MITRED, Corner.SQUARED, Corner.MITRED], [-1, 1, -1])
    assert not np.array_equal(other.points, squared.points)


def test_a_blunt_corner_has_nothing_to_square_off():
    squares = [Corner.SQUARED] * 4
    assert offset_outline(polygon(SQUARE), [10] * 4, squares).points == pytest.approx(
        offset_outline(polygon(SQUARE), [10] * 4).points
    )


@pytest.mark.parametrize("top", [(20, 80), (-20, 120), (0, 100), (35, 65)])
@pytest.mark.parametrize("side", [0.0, 12.0])
@pytest.mark.parametrize("turned_round", [False, True])
def test_a_hem_turned_up_lies_on_the_piece_with_its_allowances(top, side, turned_round):
    edges = polygon([0, 100, top[1] + 80j, top[0] + 80j])
    widths, corners = [30, side, 12, side], [Corner.TURNED_UP, Corner.TURNED_UP, Corner.MITRED, Corner.MITRED]
    if turned_round:
        edges, widths = [reverse(edge) for edge in edges[::-1]], widths[::-1]
        corners = [Corner.TURNED_UP, Corner.MITRED, Corner.MITRED, Corner.TURNED_UP]
    cut = offset_outline(edges, widths, corners)
    shape = shapely.Polygon([(z.real, z.imag) for z in cut.points])
    assert shape.is_valid
    below = shapely.intersection(shape, shapely.box(-500, -500, 500, 0))
    folded = shapely.affinity.scale(below, 1, -1, origin=(0, 0))
    above = shapely.intersection(shape, shapely.box(-500, 0, 500, 30))
    # Folded up along the hem it covers the piece and its side allowances exactly.
    assert shapely.symmetric_difference(folded, above).area == pytest.approx(0, abs=0.01)
    assert cut.swallowed == ()


def test_a_turned_up_hem_on_a_curved_side_mirrors_the_curve():
    side = np.array([[100, 104 + 20j, 104 + 40j, 90 + 80j]])
    edges = [lines([0, 100]), side, lines([90 + 80j, 80j]), lines([80j, 0])]
    corners = [Corner.MITRED, Corner.TURNED_UP, Corner.MITRED, Corner.MITRED]
    cut = offset_outline(edges, [30, 12, 12, 12], corners)
    beyond = cut.points[(cut.points.real > 101) & (cut.points.imag < -3)]
    assert len(beyond) > 3
    assert nearest(mirror(side, 0, 1), beyond).distance == pytest.approx(12, abs=TOL)


def test_many_outlines_at_once_are_each_as_alone():
    rng = np.random.default_rng(1)
    outlines = [edges for _ in range(12) if (edges := blob(rng, 5)) is not None]
    widths = [rng.choice(WIDTHS, len(edges)) for edges in outlines]
    for edges, own, cut in zip(outlines, widths, offset_outlines(outlines, widths), strict=True):
        alone = offset_outline(edges, own)
        assert cut.points == pytest.approx(alone.points, abs=1e-6)
        assert cut.edges.tolist() == alone.edges.tolist()


def test_odd_input():
    assert offset_outlines([], []) == []
    with pytest.raises(ValueError, match="width"):
        offset_outline(polygon(SQUARE), [1, 2, 3])
    with pytest.raises(ValueError, match="width"):
        offset_outline(polygon(SQUARE), [1, 2, -3, 1])
    point = offset_outline([np.full((1, 4), 5 + 0j)], [10])
    assert len(point.points) == 0
    assert point.swallowed == (0,)
    speck = offset_outlines([polygon([0, 3e-6, 3e-6j]), polygon(SQUARE)], [[0] * 3, [10] * 4])
    assert len(speck[0].points) == 0
    assert speck[0].swallowed == (0, 1, 2)
    assert len(speck[1].points) == 12
    assert offset_outline(polygon([0, 3e-6, 3e-6j]), [0] * 3).swallowed == (0, 1, 2)
    doubled = [*polygon(SQUARE)[:2], lines([100 + 80j] * 2), *polygon(SQUARE)[2:]]
    assert offset_outline(doubled, [10] * 5).points == pytest.approx(
        offset_outline(polygon(SQUARE), [10] * 4).points
    )


def simple_certainly(rings: list[np.ndarray], worth: int = 10**6) -> list[bool]:
    """What the quick look says of rings of whole complex numbers, if it may look at so many pairs of stretches."""
    points = np.concatenate(rings).astype(complex)
    steps = np.concatenate([np.roll(ring, -1) - ring for ring in rings])
    size = np.array([len(ring) for ring in rings])
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(simple, "WORTH", worth)
        return simple.simple_lines(points, steps, np.cumsum(size) - size, size).tolist()


@given(st.integers(0, 10**6), st.integers(3, 60), st.integers(1, 4))
@settings(max_examples=150, deadline=None)
def test_what_the_quick_look_calls_simple_is_simple(seed, nodes, rough):
    rng = np.random.default_rng(seed)
    rings = []
    for _ in range(4):
        angle = np.sort(rng.uniform(0.0, 2.0 * np.pi, nodes)) + rng.normal(0.0, 0.03 * rough, nodes)
        ring = np.round(40 * rng.uniform(1.0 / rough, 1.0, nodes) * np.exp(1j * angle))
        ring = ring[ring != np.roll(ring, -1)]
        if len(ring) > 2:
            rings.append(ring[:: rng.choice([1, 1, 1, -1])])
    assume(rings)
    for ring, said in zip(rings, simple_certainly(rings), strict=True):
        shape = shapely.LinearRing(np.stack([ring.real, ring.imag], axis=1))
        # The grid is coarse, so that points and chords often touch; shapely is the judge.
        assert said == (shape.is_simple and shape.is_ccw)
    assert simple_certainly(rings, 0).count(True) <= simple_certainly(rings).count(True)


@pytest.mark.parametrize("steps", [1, 3, 20, 200])
@pytest.mark.parametrize("where", [0, 1, 2])
def test_the_quick_look_sees_a_line_that_turns_back_or_only_touches_itself(steps, where):
    side = np.linspace(0, 1200, steps + 1)
    square = np.concatenate([side[:-1], 1200 + 1j * side[:-1], 1200j + side[:0:-1], 1j * side[:0:-1]])
    corner = int(np.argmax(square == 1200 + 1200j))
    touching = np.insert(square, corner + 1, [600 + 0j, 1100 + 1200j])
    turned_back = np.insert(square, corner, [1500 + 1j * square[corner - 1].imag, square[corner - 1]])
    rings = [np.roll(ring, where * steps) for ring in (square, touching, turned_back, square[::-1])]
    assert simple_certainly(rings) == [True, False, False, False]


def by_union(monkeypatch: pytest.MonkeyPatch, *args, **named) -> Offset:
    """The cut line as the union finds it, whether it is needed or not."""
    with monkeypatch.context() as patch:
        patch.setattr(outlines, "simple_lines", lambda points, steps, first, size: np.zeros(len(first), bool))
        return offset_outline(*args, **named)


@given(st.integers(0, 10**6), st.integers(3, 8), st.data())
@settings(max_examples=80, deadline=None)
def test_with_and_without_the_union_the_cut_line_is_the_same(seed, corners, data):
    edges = blob(np.random.default_rng(seed), corners, curvy=data.draw(st.sampled_from([0.0, 0.05, 0.3])))
    assume(edges is not None)
    widths = data.draw(st.lists(st.sampled_from(WIDTHS), min_size=corners, max_size=corners))
    assume(any(widths))
    styles = data.draw(st.lists(st.sampled_from(Corner), min_size=corners, max_size=corners))
    quick = offset_outline(edges, widths, styles)
    with pytest.MonkeyPatch.context() as patch:
        united = by_union(patch, edges, widths, styles)
    assert quick.points == pytest.approx(united.points, abs=1e-4)
    assert quick.edges.tolist() == united.edges.tolist()
    assert quick.swallowed == united.swallowed


def test_the_union_is_seldom_needed(monkeypatch):
    called = []
    union = outlines.united
    monkeypatch.setattr(outlines, "united", lambda raw: called.append(raw) or union(raw))
    for widths in ([10] * 6, [10, 12, 0, 15, 10, 30], [0, 0, 10, 30, 0, 0]):
        offset_outline(polygon(ELL), widths)
    offset_outline(polygon(SQUARE), [30, 12, 0, 5], [Corner.TURNED_UP, *[Corner.MITRED] * 3])
    assert not called
    offset_outline(polygon(NICK), [10] * 7)
    assert called
