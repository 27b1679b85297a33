"""Drawings as SVG: life size, the right way up, names escaped, lines told apart without colour."""

from __future__ import annotations

from xml.etree import ElementTree

import numpy as np
import pytest

from notchwork.drawing import Dot, Drawing, Group, Stroke, Text, as_svg, line_style
from notchwork.geometry import lines

NS = "{http://www.w3.org/2000/svg}"


def drawing(
    *strokes: Stroke, texts: tuple[Text, ...] = (), dots: tuple[Dot, ...] = (), name: str = "g"
) -> Drawing:
    return Drawing((Group(name, strokes, dots, texts),))


def square(meaning: str | None = "cut") -> Stroke:
    return Stroke(lines(np.array([0, 100, 100 + 50j, 50j]), closed=True), meaning, True)  # type: ignore[arg-type]


def parsed(d: Drawing) -> ElementTree.Element:
    return ElementTree.fromstring(as_svg(d))


def test_one_unit_is_one_mm() -> None:
    """CSS Values and SVG 2: width and height in mm with a viewBox from 0 0 of the same numbers make a unit a millimetre."""
    root = parsed(drawing(square()))
    assert root.get("width") == "120mm"
    assert root.get("height") == "70mm"
    assert root.get("viewBox") == "0 0 120 70"


def test_y_points_down_and_the_upper_left_corner_is_the_origin() -> None:
    path = parsed(drawing(square())).find(f".//{NS}path")
    assert path is not None
    assert path.get("d") == "M10 60L110 60L110 10L10 10Z"


def test_curves_stay_curves_and_breaks_are_moves() -> None:
    run = np.array([[0, 10j, 20 + 10j, 20], [30, 30, 40, 40]])
    path = parsed(drawing(Stroke(run, "stitch"))).find(f".//{NS}path")
    assert path is not None
    assert path.get("d") == "M10 17.5C10 7.5 30 7.5 30 17.5M40 17.5L50 17.5"


def test_a_groups_shift_moves_all_it_holds() -> None:
    moved = Drawing((Group("g", (square(),), (Dot(5j),), (Text(0j, "a", 5),), shift=1000 - 500j),))
    assert moved.bounds == (1000 - 500j - 1.25j, 1100 - 450j)
    root = parsed(moved)
    circle, text = root.find(f".//{NS}circle"), root.find(f".//{NS}text")
    assert circle is not None
    assert text is not None
    assert (circle.get("cx"), float(text.get("x", ""))) == ("10", 10.0)


def test_names_are_escaped_and_control_characters_left_out() -> None:
    nasty = "A<b>&\"'\x00\x1b[31m\ud800\uffff"
    d = Drawing((Group(nasty, (square(),), texts=(Text(0j, nasty, 5, facts={"name": nasty}),)),), title=nasty)
    root = ElementTree.fromstring(as_svg(d).encode("utf-8"))
    text = root.find(f".//{NS}text")
    assert text is not None
    assert (text.text or "").startswith("A<b>&\"'")
    assert "\x1b" not in (text.text or "")


def test_meanings_and_facts_stand_in_data() -> None:
    stroke = Stroke(square().cubics, "notch", facts={"edge": "side", "depth": 6.0})
    path = parsed(drawing(stroke)).find(f".//{NS}path")
    assert path is not None
    assert (path.get("data-meaning"), path.get("data-edge"), path.get("data-depth")) == ("notch", "side", "6")


def test_an_empty_drawing_is_a_document() -> None:
    assert parsed(Drawing(())).get("viewBox") == "0 0 20 20"


def test_unknown_facts_and_meanings_are_refused() -> None:
    with pytest.raises(ValueError, match="colour"):
        Group("g", (Stroke(square().cubics, facts={"colour": "red"}),))  # type: ignore[dict-item]
    with pytest.raises(ValueError, match="wobble"):
        Group("g", (square("wobble"),))


def test_what_matters_is_told_apart_without_colour() -> None:
    told = [
        (style.width, style.dashes)
        for m in ("cut", "stitch", "fold", "dart", "pleat")
        if (style := line_style(m))
    ]
    assert len(set(told)) == len(told)


@pytest.mark.parametrize("base", ["XS", "M", "XL"])
def test_sizes_are_told_apart_by_dashes_and_the_drafted_one_is_solid(base: str) -> None:
    sizes = ("XS", "S", "M", "L", "XL")
    if base != "M":
        sizes = sizes[:3] if base == "XS" else sizes[2:]
    dashes = [line_style("cut", size, sizes, base).dashes for size in sizes]
    assert len(set(dashes)) == len(sizes)
    assert dashes[sizes.index(base)] == ()
    thin = [line_style("stitch", size, sizes, base).width for size in sizes]
    assert max(thin) < line_style("cut", base, sizes, base).width


def test_of_many_sizes_all_but_the_drafted_one_are_hairlines() -> None:
    sizes = tuple(str(k) for k in range(34, 52, 2))
    widths = {size: line_style("cut", size, sizes, "40").width for size in sizes}
    assert [size for size, width in widths.items() if width > 0.2] == ["40"]
