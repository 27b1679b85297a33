"""Cut lines and crossings against shapely (GEOS) and closed forms."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from notchwork.geometry import (
    area,
    circle,
    flatten,
    intersections,
    lengths,
    lines,
    offset_outline,
    parallel,
    part,
    self_intersections,
)


def as_polygon(z):
    return shapely.Polygon(np.stack([z.real, z.imag], axis=1))


def outlines():
    rng = np.random.default_rng(4)
    for _ in range(120):
        angle = np.sort(rng.uniform(0, 2 * np.pi, 9))
        if np.diff(np.append(angle, angle[0] + 2 * np.pi)).min() > 0.1:
            yield rng.uniform(90, 200, 9) * np.exp(1j * angle)


@pytest.mark.parametrize("width", [6.0, 15.0])
def test_one_width_all_round_is_shapely_s_mitred_buffer(width):
    """shapely.buffer, join_style mitre; pointed tips are cut off in another way there, so they are left out.

    At inner corners and nicks both must fill the same cloth.
    """
    compared = 0
    for nodes in outlines():
        turn = np.angle(np.roll(nodes, -1) - nodes) - np.angle(nodes - np.roll(nodes, 1))
        if (np.mod(turn + np.pi, 2 * np.pi) - np.pi).max() > 2.2:
            continue
        mine = as_polygon(
            offset_outline([row[None] for row in lines(nodes, closed=True)], [width] * 9).points
        )
        theirs = as_polygon(nodes).buffer(width, join_style="mitre", mitre_limit=3.0)
        theirs = shapely.Polygon(theirs.exterior)
        assert mine.symmetric_difference(theirs).area < 1e-3 * mine.area
        assert mine.hausdorff_distance(theirs) < 0.01
        compared += 1
    assert compared >= 8


def test_widths_by_edge_are_the_union_of_the_edges_strips_but_for_the_corners():
    """shapely union of the piece and of a flat-ended, one-sided buffer of every edge by its own width."""
    rng = np.random.default_rng(8)
    for nodes in outlines():
        widths = rng.choice([0.0, 8.0, 12.0, 30.0], len(nodes))
        edges = [row[None] for row in lines(nodes, closed=True)]
        mine = as_polygon(offset_outline(edges, widths).points)
        strips = [
            shapely.LineString([(a.real, a.imag), (b.real, b.imag)]).buffer(-w, single_sided=True)
            for a, b, w in zip(nodes, np.roll(nodes, -1), widths, strict=True)
            if w > 0
        ]
        least = shapely.union_all([as_polygon(nodes), *strips])
        assert least.difference(mine).area < 1e-2
        # What goes beyond the strips lies about the outer corners, within three of the wider allowance.
        beyond = mine.difference(least.buffer(0.01))
        discs = [
            shapely.Point(z.real, z.imag).buffer(3.01 * max(w, v) + 0.01, quad_segs=64)
            for z, w, v in zip(nodes, widths, np.roll(widths, 1), strict=True)
        ]
        holes = shapely.union_all(
            [shapely.Polygon(ring) for poly in shapely.get_parts(least) for ring in poly.interiors]
        )
        assert beyond.difference(shapely.union_all(discs)).difference(holes).area < 1e-2


@pytest.mark.parametrize(("radius", "width"), [(200.0, 12.0), (45.0, 30.0), (3.0, 30.0)])
def test_a_round_piece_grows_by_two_pi_times_the_allowance(radius, width):
    """J. Steiner's formula for parallel curves of a convex figure: length + 2 pi w, area + length w + pi w^2."""
    ring = circle(7j, radius)
    cut = lines(offset_outline([ring[:10], ring[10:]], [width, width]).points, closed=True)
    assert lengths(cut).sum() == pytest.approx(2 * np.pi * (radius + width), abs=0.05)
    assert area(cut) == pytest.approx(np.pi * (radius + width) ** 2, rel=2e-4)


@pytest.mark.parametrize("distance", [-25.0, -10.0, 10.0, 25.0])
def test_a_line_at_a_distance_is_shapely_s_offset_curve(distance):
    """shapely.offset_curve of a fine polyline, mitred (GEOS)."""
    arc = part(np.array([0, 60 + 130j, 190 + 110j, 230 + 0j]), 0.0, 0.95)[None]
    fine = flatten(arc, 2e-6).points  # so fine that its end chord stands as the tangent does
    theirs = shapely.LineString(np.stack([fine.real, fine.imag], axis=1)).offset_curve(
        distance, join_style="mitre"
    )
    mine = flatten(parallel(arc, distance), 0.0005).points
    mine_line = shapely.LineString(np.stack([mine.real, mine.imag], axis=1))
    assert mine_line.hausdorff_distance(theirs) < 0.01
    assert mine_line.length == pytest.approx(theirs.length, abs=0.02)


def test_crossings_of_polylines_are_shapely_s():
    """shapely.intersection of two polylines, and shapely.is_simple."""
    rng = np.random.default_rng(2)
    for _ in range(20):
        one, two = rng.uniform(0, 100, (2, 12)) + 1j * rng.uniform(0, 100, (2, 12))
        a, b = (shapely.LineString(np.stack([z.real, z.imag], axis=1)) for z in (one, two))
        theirs = np.array([complex(p.x, p.y) for p in shapely.get_parts(a.intersection(b))])
        mine = intersections(lines(one), lines(two)).points
        assert len(mine) == len(theirs)
        assert abs(mine[:, None] - theirs).min(axis=0).max(initial=0) < 1e-6
        assert (len(self_intersections(lines(one), closed=False).points) == 0) == a.is_simple
