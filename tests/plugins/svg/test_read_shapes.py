"""The basic shapes (SVG 2, chapter 10), transforms (7.6 of SVG 1.1, CSS Transforms 1) and lengths."""

from __future__ import annotations

import math

import pytest
from svg_files import beyond_info, drawing, nodes, strokes

from notchwork.drawing import Stroke
from notchwork.geometry import area, bounds, flatten, lengths


def box(stroke: Stroke) -> tuple[float, float, float, float]:
    """Left, top, right, bottom in mm, y downward."""
    low, high = bounds(stroke.cubics)
    return round(low.real, 3), round(-high.imag, 3), round(high.real, 3), round(-low.imag, 3)


def test_rectangles() -> None:
    [plain] = strokes('<rect x="1" y="2" width="10" height="5"/>')
    assert plain.closed
    assert nodes(plain) == [1 + 2j, 11 + 2j, 11 + 7j, 1 + 7j, 1 + 2j]
    for radii in ('rx="2"', 'ry="2"', 'rx="2" ry="-1"', 'rx="2" ry="auto"'):
        [rounded] = strokes(f'<rect width="10" height="6" {radii}/>')
        assert box(rounded) == (0, 0, 10, 6)
        assert abs(area(rounded.cubics)) == pytest.approx(60 - (4 - math.pi) * 4, abs=0.01)
    # Radii are cut down to half the side, each by itself; then nothing straight is left.
    [oval] = strokes('<rect width="10" height="6" rx="50" ry="50"/>')
    assert abs(area(oval.cubics)) == pytest.approx(math.pi * 15, abs=0.02)
    assert nodes(oval)[0] == 5


def test_round_shapes() -> None:
    [circle] = strokes('<circle cx="50" cy="40" r="30"/>')
    assert circle.closed
    assert box(circle) == (20, 10, 80, 70)
    assert lengths(circle.cubics).sum() == pytest.approx(2 * math.pi * 30, abs=1e-3)
    [ellipse] = strokes('<ellipse cx="50" cy="40" rx="30" ry="10"/>')
    assert box(ellipse) == (20, 30, 80, 50)
    [alike] = strokes('<ellipse cx="50" cy="40" rx="30"/>')
    assert box(alike) == (20, 10, 80, 70)


@pytest.mark.parametrize("radius", [0.1, 10.0, 300.0, 9000.0])
def test_a_circle_is_met_within_a_thousandth_of_a_mm(radius: float) -> None:
    [circle] = strokes(f'<circle r="{radius}"/>')
    points = flatten(circle.cubics, 1e-4).points
    assert abs(abs(points) - radius).max() <= 3.1e-4


def test_arcs_are_close_enough_at_the_size_they_come_out_in() -> None:
    [small] = strokes('<g transform="scale(1000)"><circle r="0.3"/></g>')
    [large] = strokes('<circle r="300"/>')
    assert len(small.cubics) == len(large.cubics) > 4


def test_lines_and_polygons() -> None:
    [line] = strokes('<line x1="1" x2="5" y2="7"/>')
    assert (line.closed, nodes(line)) == (False, [1, 5 + 7j])
    [open_] = strokes('<polyline points="0,0 10,0 10,10"/>')
    assert (open_.closed, nodes(open_)) == (False, [0, 10, 10 + 10j])
    [closed] = strokes('<polygon points="0,0 10,0 10,10"/>')
    assert (closed.closed, nodes(closed)) == (True, [0, 10, 10 + 10j, 0])
    [stroke] = strokes('<polygon points="0 0 10 0 10 10 7"/>')
    assert len(stroke.cubics) == 3
    assert "the last point has no second number" in beyond_info('<polygon points="0 0 10 0 10 10 7"/>')[0][1]


@pytest.mark.parametrize(
    "body",
    [
        '<rect width="0" height="5"/>',
        '<rect width="-3" height="5"/>',
        '<rect height="5"/>',
        "<circle/>",
        '<circle r="-1"/>',
        '<ellipse rx="0" ry="5"/>',
        "<polygon/>",
        '<polyline points="1 1"/>',
        "<path/>",
    ],
)
def test_shapes_of_no_extent_are_nothing_and_no_fault(body: str) -> None:
    assert strokes(body) == []
    assert beyond_info(body) == []


@pytest.mark.parametrize(
    ("transform", "expected"),
    [
        ("translate(5)", (6, 2, 7, 3)),
        ("translate(5,-1)", (6, 1, 7, 2)),
        ("scale(2)", (2, 4, 4, 6)),
        ("scale(-1,2)", (-2, 4, -1, 6)),
        ("rotate(90)", (-3, 1, -2, 2)),
        ("rotate(180, 1, 2)", (0, 1, 1, 2)),
        ("skewX(45)", (3, 2, 5, 3)),
        ("skewY(45)", (1, 3, 2, 5)),
        ("matrix(0 1 -1 0 10 20)", (7, 21, 8, 22)),
        ("translate(10) scale(2)", (12, 4, 14, 6)),
        ("scale(2),translate(10)", (22, 4, 24, 6)),
        (" translate ( 5 , 0 ) ", (6, 2, 7, 3)),
        ("translate(5-1)", (6, 1, 7, 2)),
        ("none", (1, 2, 2, 3)),
        ("", (1, 2, 2, 3)),
    ],
)
def test_transforms(transform: str, expected: tuple[float, ...]) -> None:
    square = '<rect x="1" y="2" width="1" height="1"'
    assert box(strokes(f'{square} transform="{transform}"/>')[0]) == expected
    assert box(strokes(f'<g transform="{transform}">{square}/></g>')[0]) == expected
    if "," not in transform.replace(", ", "") or "(" not in transform:
        assert box(strokes(f'{square} style="transform: {transform}"/>')[0]) == expected


def test_the_units_of_css_are_known_in_transforms() -> None:
    [stroke] = strokes('<rect width="1" height="1" style="transform:translate(3px, 4px) rotate(90deg)"/>')
    assert box(stroke) == (2, 4, 3, 5)


def test_transforms_about_an_origin() -> None:
    # Percentages and keywords are of the viewport (CSS Transforms 1, transform-box: view-box).
    body = '<rect x="40" y="40" width="20" height="10" transform="rotate(180)" transform-origin="{}"/>'
    for origin, expected in {
        "center": (40, 50, 60, 60),
        "50% 50%": (40, 50, 60, 60),
        "50 50": (40, 50, 60, 60),
        "top left": (-60, -50, -40, -40),
        "right bottom": (140, 150, 160, 160),
        "40px 40px": (20, 30, 40, 40),
    }.items():
        assert box(strokes(body.format(origin))[0]) == expected, origin


@pytest.mark.parametrize(
    "transform", ["qwe", "rotate(1,2)", "translate()", "scale(1) rubbish", "matrix(1 2 3)", "rotate(1e99)"]
)
def test_a_transform_that_means_nothing_is_told_and_left_out(transform: str) -> None:
    body = f'<rect id="yoke" x="1" y="2" width="1" height="1" transform="{transform}"/>'
    assert box(strokes(body)[0]) == (1, 2, 2, 3)
    [(rule, text)] = beyond_info(body)
    assert rule == "svg/bad-value"
    assert text.startswith("rect “yoke” (line 1): its transform means nothing (")


def test_what_is_flattened_or_moved_away_is_told() -> None:
    for transform in ("scale(0)", "scale(1,0)", "matrix(1 1 1 1 0 0)"):
        body = f'<rect width="1" height="1" transform="{transform}"/>'
        assert strokes(body) == []
        assert [rule for rule, _ in beyond_info(body)] == ["svg/out-of-bounds"]
    for away in (
        '<g transform="translate(1e7)"><rect width="1" height="1"/></g>',
        '<rect x="2e6" width="1" height="1"/>',
    ):
        assert strokes(away) == []
        assert [rule for rule, _ in beyond_info(away)] == ["svg/out-of-bounds"]
    deep = '<g transform="scale(1e9)">' * 100 + '<rect width="1" height="1"/>' + "</g>" * 100
    assert strokes(deep) == []
    assert [rule for rule, _ in beyond_info(deep)] == ["svg/out-of-bounds"]


def test_lengths_that_mean_nothing_are_told() -> None:
    for value in ("44mmx", "5 5", "nan", "1e999", "1_0", "12,5", "3furlongs"):
        body = f'<rect id="tab" width="5" height="5" x="{value}"/>'
        assert box(strokes(body)[0]) == (0, 0, 5, 5)
        assert [rule for rule, _ in beyond_info(body)] == ["svg/bad-value"]


def test_units_of_type_and_shares() -> None:
    assert box(strokes('<rect width="2em" height="2ex" font-size="8"/>')[0]) == (0, 0, 16, 8)
    assert box(strokes('<circle r="10%"/>')[0]) == (-10, -10, 10, 10)
    assert box(strokes('<rect width="10%" height="20%"/>', 'width="50mm" viewBox="0 0 50 100"')[0]) == (
        0,
        0,
        5,
        20,
    )


def test_groups_hold_what_is_in_them_by_name() -> None:
    found = drawing(
        '<g id="layer1" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" inkscape:label="Front">'
        '<rect id="a" width="1" height="1"/><g><title>Pocket</title><rect width="2" height="2"/></g><g id="c">'
        '<g data-name="Flap"><rect width="3" height="3"/></g></g></g><rect width="4" height="4"/>'
    )
    assert [(group.name, group.within, len(group.strokes)) for group in found.groups] == [
        ("", (), 1),
        ("Front", (), 1),
        ("Pocket", ("Front",), 1),
        ("Flap", ("Front", "c"), 1),
    ]
    assert found.groups[1].strokes[0].facts == {"name": "a"}
