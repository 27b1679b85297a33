"""How large a drawing is: root size against viewBox, px, older editors, stated scales (facts of CSS Values 4 and SVG 2)."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from svg_files import read, said, svg

from notchwork import jobs
from notchwork.checks import Names, message
from notchwork.draw import Options as Drawn
from notchwork.findings import NotchworkError
from notchwork.geometry import bounds
from notchwork.recognise import Options

SQUARE = '<rect width="10" height="10"/>'


def measured(root: str, body: str = SQUARE, **options: str) -> tuple[float, float, float | None, list[str]]:
    """Width and height (mm) of what is drawn, whether its scale is settled, and the rules that speak."""
    found = read(svg(body, root), options)
    assert found.drawing is not None
    [group] = found.drawing.groups
    low, high = bounds(group.strokes[0].cubics)
    wide, tall = high.real - low.real, high.imag - low.imag
    return round(wide, 4), round(tall, 4), found.drawing.scale, [rule for _, rule, _ in said(found)]


@pytest.mark.parametrize(
    ("root", "size"),
    [
        ('width="100mm" height="50mm" viewBox="0 0 100 50"', 10),
        ('width="10cm" height="5cm" viewBox="-50 -50 100 50"', 10),
        ('width="1in" height="1in" viewBox="0 0 1 1"', 254),
        ('width="72pt" height="72pt" viewBox="0 0 254 254"', 1),
        ('width="6pc" height="6pc" viewBox="0 0 254 254"', 1),
        ('width="400Q" height="400Q" viewBox="0 0 100 100"', 10),
        ('width="100MM" viewBox="0 0 100 50"', 10),
        ('height="50mm" viewBox="0 0 100 50"', 10),
        ('width="100%" height="50mm" viewBox="0 0 100 50"', 10),
    ],
)
def test_units_against_the_view_box(root: str, size: float) -> None:
    assert measured(root) == (size, size, 1.0, ["svg/scale"])


def test_a_page_of_another_shape_scales_both_ways_alike() -> None:
    box = 'width="100mm" height="100mm" viewBox="0 0 100 50"'
    assert measured(box)[:2] == (10, 10)
    assert measured(f'{box} preserveAspectRatio="xMinYMin slice"')[:2] == (20, 20)


def test_a_stretched_drawing_is_told() -> None:
    root = 'width="100mm" height="100mm" viewBox="0 0 100 50" preserveAspectRatio="none"'
    assert measured(root) == (10, 20, 1.0, ["svg/stretched", "svg/scale"])


@pytest.mark.parametrize(
    "root",
    [
        'width="100" height="50"',
        'width="100px" height="50px" viewBox="0 0 100 50"',
        'width="100mm" height="50mm"',
    ],
)
def test_px_are_96_to_the_inch_but_settle_nothing(root: str) -> None:
    assert measured(root) == (2.6458, 2.6458, None, ["svg/scale"])


@pytest.mark.parametrize(
    ("root", "dpi"),
    [
        # A4 at 72 and at 90 px to the inch.
        ('width="595.28" height="841.89" viewBox="0 0 595.28 841.89"', "72"),
        ('width="744.09448819" height="1052.3622047"', "90"),
        (
            'width="500" height="500" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" inkscape:version="0.48.2 r1"',
            "90",
        ),
    ],
)
def test_where_two_sizes_are_plausible_both_are_told(root: str, dpi: str) -> None:
    found = read(svg(SQUARE, root))
    [(grade, rule, text)] = said(found)
    assert (grade, rule) == ("WARNING", "svg/scale-unclear")
    assert f"perhaps {dpi} of them to the inch" in text
    assert "96 px to the inch" in text
    assert found.drawing is not None
    assert found.drawing.scale is None


@pytest.mark.parametrize(
    "root",
    [
        'width="793.7" height="1122.5" viewBox="0 0 793.7 1122.5"',
        'width="500" height="500" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" inkscape:version="0.92.4"',
        'width="500" height="500" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" inkscape:version="1.3"',
    ],
)
def test_nothing_is_doubted_without_a_reason(root: str) -> None:
    assert [grade for grade, _, _ in said(read(svg(SQUARE, root)))] == ["INFO"]


def test_a_program_that_counts_72_is_told_from_its_mark() -> None:
    data = b"<!-- Generator: Adobe Illustrator 14.0.0 -->" + svg(SQUARE, 'width="79px" height="102px"')
    assert "perhaps 72 of them" in said(read(data))[0][2]


@pytest.mark.parametrize(
    "root", ['viewBox="0 0 100 50"', "", 'width="100%" height="100%" viewBox="0 0 100 50"']
)
def test_a_drawing_without_any_size_is_told(root: str) -> None:
    assert measured(root) == (2.6458, 2.6458, None, ["svg/scale-unclear"])


@pytest.mark.parametrize(
    ("options", "size"),
    [
        ({"dpi": "72"}, 3.5278),
        ({"dpi": "90"}, 2.8222),
        ({"scale": "1"}, 10),
        ({"scale": "1in"}, 254),
        ({"scale": "0.5 mm"}, None),
        ({"scale": "0.5mm", "dpi": "72"}, 5),
    ],
)
def test_a_stated_size_settles_it(options: dict[str, str], size: float | None) -> None:
    root = 'width="100" height="100"'
    if size is None:
        with pytest.raises(NotchworkError, match="no length"):
            measured(root, **options)
    else:
        assert measured(root, **options) == (size, size, 1.0, ["svg/scale"])


@pytest.mark.parametrize(
    "options", [{"dpi": "many"}, {"dpi": "0"}, {"dpi": "96mm"}, {"scale": "-1"}, {"scale": "1em"}]
)
def test_a_size_that_is_none_is_refused(options: dict[str, str]) -> None:
    with pytest.raises(NotchworkError, match=r"a\.svg: The "):
        measured("", **options)


@pytest.mark.parametrize(
    ("root", "rule"),
    [
        ('width="100km" height="100mm" viewBox="0 0 100 100"', "svg/bad-value"),
        ('width="-5mm" height="100mm" viewBox="0 0 100 100"', "svg/bad-value"),
        ('width="nan" height="100mm" viewBox="0 0 100 100"', "svg/bad-value"),
        ('width="100mm" height="100mm" viewBox="0 0 0 100"', "svg/bad-value"),
        ('width="100mm" height="100mm" viewBox="0 0 100"', "svg/bad-value"),
        ('width="100mm" height="100mm" viewBox="0 0 1e999 100"', "svg/bad-value"),
    ],
)
def test_a_root_that_means_nothing_is_told(root: str, rule: str) -> None:
    assert measured(root)[3][0] == rule


def test_lengths_inside_a_drawing_are_in_its_units() -> None:
    body = '<rect width="10mm" height="1in"/>'
    assert measured('width="96" height="96"', body)[:2] == (10, 25.4)
    assert measured('width="50%" height="96" viewBox="0 0 50 50"', '<rect width="50%" height="20%"/>')[
        0
    ] == pytest.approx(50 * 25.4 / 50 * 96 / 96 / 2, abs=1e-3)


def test_coordinates_are_the_drawing_s_own_turned_upward() -> None:
    root = 'width="100mm" height="100mm" viewBox="-50 -50 100 100"'
    found = read(svg('<rect x="-10" y="20" width="1" height="2"/>', root)).drawing
    assert found is not None
    assert found.bounds == (-10 - 22j, -9 - 20j)


@pytest.mark.parametrize(
    ("root", "unit"),
    [
        ('width="50cm" height="70cm" viewBox="0 0 500 700"', "cm"),
        ('width="8.5in" height="11in" viewBox="0 0 215.9 279.4"', "in"),
        ('width="100%" height="11IN" viewBox="0 0 215.9 279.4"', "in"),
        ('width="500mm" height="700mm" viewBox="0 0 500 700"', "mm"),
        ('width="595pt" height="842pt" viewBox="0 0 595 842"', "mm"),
        ('width="500" height="700"', "mm"),
        ('viewBox="0 0 500 700"', "mm"),
    ],
)
def test_the_pages_unit_is_the_patterns(root: str, unit: str) -> None:
    piece = '<path d="M20 20 H120 V220 H20 Z"/><text x="40" y="80" font-size="10">Front</text>'
    found = jobs.load(svg(piece, root), "a.svg", reading=Options(outline="stitch"))
    assert found.sound().unit == unit


def test_what_a_drawing_in_inches_is_told_is_in_inches() -> None:
    body = (
        '<path d="M0 0 H4 V8 H0 Z"/><text x="1" y="3" font-size="0.5">Front</text><text x="0.2" y="4" font-size="0.3">A</text>'
        '<path d="M9 0 H5 V9 H9 Z"/><text x="7" y="3" font-size="0.5">Back</text><text x="5.2" y="4" font-size="0.3">A</text>'
    )
    data = svg(body, 'width="10in" height="10in" viewBox="0 0 10 10"')
    verdict = jobs.check(
        jobs.load(data, "a.svg", reading=Options(outline="stitch")), ("seams/unequal-length",)
    )
    names = Names(verdict.pattern)
    [told] = [message(found, names) for found in verdict.findings if found.rule.id == "seams/unequal-length"]
    assert "9 in against 8 in" in told


def optimised(tmp_path: Path, cases: Path) -> bytes:
    """A picture of the skirt that was saved without its document and without the size of its page."""
    target = tmp_path / "skirt.svg"
    jobs.convert(cases / "two_panel_skirt.pattern.json", target, drawing=Drawn(document=False))
    return re.sub(rb'(<svg[^>]*?) width="[^"]*" height="[^"]*"', rb"\1", target.read_bytes(), count=1)


def test_a_test_square_says_how_large_a_page_without_size_is(tmp_path: Path, cases: Path) -> None:
    loaded = jobs.load(optimised(tmp_path, cases), "skirt.svg")
    nest = jobs.describe(loaded)
    assert nest.line("front", "waist").length == pytest.approx([300], abs=1e-3)
    told = {finding.rule.id for finding in loaded.findings}
    assert {"svg/scale", "recognised/scale"} <= told
    assert "svg/scale-unclear" not in told


def test_a_test_square_that_was_pulled_at_says_nothing(tmp_path: Path, cases: Path) -> None:
    data = optimised(tmp_path, cases)
    pulled = re.sub(rb'(data-kind="test-square"[^>]*? d="M)10 (\d+)L', rb"\g<1>30 \2L", data)
    assert pulled != data
    loaded = jobs.load(pulled, "skirt.svg")
    told = {finding.rule.id for finding in loaded.findings}
    assert "svg/scale-unclear" in told
    assert "recognised/scale" not in told
