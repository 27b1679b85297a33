"""Drawings written as SVG and read again: the same drawing, its document byte for byte, layers as editors know them."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from patterns import CASES, case, nest_of

from notchwork import jobs
from notchwork.demo import example
from notchwork.document import read_pattern, write_pattern
from notchwork.draw import Options, draw_pattern
from notchwork.drawing import Dot, Drawing, Group, Stroke, Text, as_svg
from notchwork.findings import NotchworkError, UnknownName
from notchwork.formats import Source
from notchwork.geometry import lines
from notchwork.sewing import Nest
from notchwork_plugins.svg.read import read

NS = "{http://www.w3.org/2000/svg}"
LABEL = "{http://www.inkscape.org/namespaces/inkscape}label"
MODE = "{http://www.inkscape.org/namespaces/inkscape}groupmode"

DIGIT = 1.5e-4
"""mm: two numbers (a group's place and a point) rounded to four decimals each."""

Part = Stroke | Dot | Text


def drawn(data: bytes, options: Options | None = None) -> Drawing:
    pattern = read_pattern(data, "test").pattern
    assert pattern is not None
    return replace(draw_pattern(Nest(pattern), options), attached=write_pattern(pattern))


def read_back(drawing: Drawing) -> Drawing:
    found = read(Source("test.svg", as_svg(drawing).encode()), {})
    assert {finding.rule.id for finding in found.findings} <= {"svg/scale"}
    assert found.drawing is not None
    return found.drawing


def said(part: Part) -> tuple[str, list[tuple[str, str]]]:
    return str(part.meaning), sorted((key, str(value)) for key, value in rounded(part.facts).items())


def rounded(facts: Mapping[str, str | float]) -> dict[str, str | float]:
    return {key: round(v, 4) + 0.0 if isinstance(v, float | int) else v for key, v in facts.items()}


def in_order(parts: Iterable[Part]) -> list[Part]:
    """As they are grouped in layers: the order of parts that say the same is kept."""
    return sorted(parts, key=said)


def assert_same(one: Drawing, other: Drawing) -> None:
    assert (one.title, one.sizes, one.base, one.scale) == (other.title, other.sizes, other.base, other.scale)
    assert [(g.name, g.facts) for g in one.groups] == [(g.name, g.facts) for g in other.groups]
    moved = {complex(np.round(b.shift - a.shift, 3)) for a, b in zip(one.groups, other.groups, strict=True)}
    assert len(moved) <= 1
    for a, b in zip(one.groups, other.groups, strict=True):
        for x, y in zip(in_order(a.strokes), in_order(b.strokes), strict=True):
            assert isinstance(x, Stroke)
            assert isinstance(y, Stroke)
            assert (said(x), x.closed, len(x.cubics)) == (said(y), y.closed, len(y.cubics))
            assert np.abs(x.cubics - y.cubics).max(initial=0.0) < DIGIT
        for p, q in zip(in_order(a.dots), in_order(b.dots), strict=True):
            assert isinstance(p, Dot)
            assert isinstance(q, Dot)
            assert said(p) == said(q)
            assert abs(p.at - q.at) < DIGIT
        for t, u in zip(in_order(a.texts), in_order(b.texts), strict=True):
            assert isinstance(t, Text)
            assert isinstance(u, Text)
            assert (said(t), t.words, t.anchor) == (said(u), u.words, u.anchor)
            assert abs(t.at - u.at) < DIGIT
            assert u.height == pytest.approx(t.height, abs=DIGIT)
            assert u.angle == pytest.approx(t.angle, abs=DIGIT)


@pytest.mark.parametrize("name", ["ferry_smock", "every_key", "sound/pleated_apron", "sound/circle_skirt"])
@pytest.mark.parametrize(
    "options", [Options(), Options(unfolded=True, allowances=False)], ids=["whole", "unfolded"]
)
def test_what_is_written_is_read_back_as_it_was(name: str, options: Options) -> None:
    drawing = drawn((CASES / f"{name}.pattern.json").read_bytes(), options)
    assert_same(drawing, read_back(drawing))


def test_the_demo_is_read_back_and_its_document_byte_for_byte() -> None:
    drawing = drawn(example("sound.pattern.json"))
    back = read_back(drawing)
    assert_same(drawing, back)
    assert back.attached is not None
    again = read_pattern(back.attached, "attached").pattern
    assert again is not None
    assert write_pattern(again) == drawing.attached


NAMES = st.text(min_size=1, max_size=12)


@settings(max_examples=60, deadline=None)
@given(title=NAMES, name=NAMES, size=NAMES, words=NAMES, note=NAMES)
def test_any_names_go_through(title: str, name: str, size: str, words: str, note: str) -> None:
    line = Stroke(lines(np.array([0, 100 + 5j])), "stitch", facts={"edge": name, "size": size})
    text = Text(1j, words, 5.0, "note")
    document = json.dumps({"note": note}, ensure_ascii=False).encode("utf-8", "surrogatepass")
    try:
        document.decode()
    except UnicodeDecodeError:
        document = b"{}"
    drawing = Drawing((Group(name, (line,), (), (text,)),), title, (size,), size, attached=document)
    written = as_svg(drawing)
    assert written == as_svg(drawing)
    back = read_back(drawing)
    assert back.attached is not None
    assert json.loads(back.attached) == json.loads(document)
    [group] = back.groups
    [stroke] = group.strokes
    if all(c.isprintable() for c in title + name + size):
        assert (group.name, stroke.facts) == (name, {"edge": name, "size": size})
        assert (back.sizes, back.base) == ((size,), size)


def test_groups_are_layers_with_titles_and_ids_are_unique() -> None:
    root = ElementTree.fromstring(as_svg(drawn(example("sound.pattern.json"))))
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(set(ids)) == len(ids)
    layers = [g for g in root.findall(f"{NS}g") if g.get(MODE) == "layer"]
    assert len(layers) == len(root.findall(f"{NS}g"))
    front = next(g for g in layers if g.get("data-piece") == "front")
    title = front.find(f"{NS}title")
    assert title is not None
    assert (front.get(LABEL), title.text) == ("Front", "Front")
    sizes = [g for g in front.findall(f"{NS}g") if g.get(LABEL) in ("S", "M", "L")]
    assert [g.get(LABEL) for g in sizes] == ["S", "M", "L"]
    assert [g.get(LABEL) for g in sizes[0]][1:] == ["S cut line", "S stitch line", "S marks", "S text"]


def test_every_line_says_itself_how_it_looks() -> None:
    """An editor that takes a line out of its layer keeps its look: nothing but type and ends is inherited."""
    root = ElementTree.fromstring(as_svg(drawn((CASES / "ferry_smock.pattern.json").read_bytes())))
    for path in root.iter(f"{NS}path"):
        if path.get("data-meaning") != "ground":
            assert path.get("fill") == "none"
            assert path.get("stroke")
            assert float(path.get("stroke-width", "0")) > 0


def test_the_document_is_plain_ascii_without_signs_of_xml() -> None:
    document = case("ferry_smock")
    document["title"] = "Fährhemd <&> 🧵"
    written = as_svg(drawn(json.dumps(document).encode()))
    found = re.search(r"<notchwork:document>(.*)</notchwork:document>", written, re.DOTALL)
    assert found is not None
    assert found[1].isascii()
    assert not set("<>&") & set(found[1])
    assert json.loads(found[1])["title"] == document["title"]


def test_a_document_larger_than_one_text_may_be_is_read_back() -> None:
    """libxml2 refuses a single text of more than 10,000,000 bytes (its XML_MAX_TEXT_LENGTH)."""
    document = json.dumps({"x-notes": ["a stitch in time"] * 700_000}, indent=0).encode()
    assert len(document) > 12_000_000
    assert read_back(Drawing((), attached=document)).attached == document


def test_the_page_and_the_numbers_are_millimetres() -> None:
    drawing = drawn((CASES / "ferry_smock.pattern.json").read_bytes())
    root = ElementTree.fromstring(as_svg(drawing))
    assert drawing.bounds is not None
    size = drawing.bounds[1] - drawing.bounds[0] + 20 * (1 + 1j)
    wide, tall = (float((root.get(name) or "").removesuffix("mm")) for name in ("width", "height"))
    assert (wide, tall) == pytest.approx((size.real, size.imag), abs=1e-4)
    assert [float(n) for n in (root.get("viewBox") or "").split()] == [0, 0, wide, tall]


def test_the_test_square_is_one_closed_path_of_100_mm() -> None:
    [square] = [
        s
        for g in read_back(drawn((CASES / "ferry_smock.pattern.json").read_bytes())).groups
        for s in g.strokes
        if s.facts.get("kind") == "test-square"
    ]
    assert square.closed
    assert np.abs(square.cubics[:, 3] - square.cubics[:, 0]) == pytest.approx([100] * 4, abs=DIGIT)


def test_a_number_that_is_none_is_refused() -> None:
    line = Stroke(lines(np.array([0, complex("nan")])), "cut")
    with pytest.raises(ValueError, match="nan"):
        as_svg(Drawing((Group("g", (line,)),)))


def test_a_piece_moved_on_the_page_keeps_its_own_coordinates() -> None:
    drawing = drawn((CASES / "ferry_smock.pattern.json").read_bytes())
    moved = as_svg(drawing).replace('<g id="sleeve" ', '<g id="sleeve" transform="translate(50 -70)" ')
    found = read(Source("moved.svg", moved.encode()), {}).drawing
    assert found is not None
    before, after = (next(g for g in d.groups if g.name == "sleeve") for d in (read_back(drawing), found))
    assert after.shift - before.shift == pytest.approx(50 + 70j)
    for a, b in zip(before.strokes, after.strokes, strict=True):
        assert np.abs(a.cubics - b.cubics).max() < 1e-9


def test_convert_tells_what_only_the_document_carries(cases: Path, tmp_path: Path) -> None:
    source, target = cases / "ferry_smock.pattern.json", tmp_path / "smock.svg"
    done = jobs.convert(source, target)
    assert [finding.rule.id for finding in done.findings] == ["losses/only-attached"]
    assert b"notchwork:document>" in target.read_bytes()
    bare = jobs.convert(source, target, drawing=Options(document=False))
    assert {finding.rule.id for finding in bare.findings} == {"losses/not-carried"}
    assert b"notchwork:document>" not in target.read_bytes()


def test_pieces_may_be_chosen_by_the_names_people_use(cases: Path, tmp_path: Path) -> None:
    source, target = cases / "ferry_smock.pattern.json", tmp_path / "smock.svg"
    jobs.convert(source, target, drawing=Options(pieces=("Sleeve", "front"), sizes=("L",)))
    found = read(Source("smock.svg", target.read_bytes()), {}).drawing
    assert found is not None
    assert [g.name for g in found.groups] == ["front", "sleeve", "legend", "test-square"]
    assert found.sizes == ("L",)
    with pytest.raises(UnknownName, match="Did you mean sleeve"):
        jobs.convert(source, target, drawing=Options(pieces=("sleve",)))
    with pytest.raises(UnknownName, match="no size of this name"):
        jobs.convert(source, target, drawing=Options(sizes=("XL",)))
    with pytest.raises(NotchworkError, match="It is no drawing"):
        jobs.convert(source, tmp_path / "smock.json", drawing=Options(unfolded=True))


def test_what_has_no_shape_cannot_be_drawn(cases: Path, tmp_path: Path) -> None:
    with pytest.raises(NotchworkError, match="Nothing of it can be drawn"):
        jobs.convert(cases / "sound" / "measured_skirt.pattern.json", tmp_path / "skirt.svg")
    assert not (tmp_path / "skirt.svg").exists()


def test_a_double_notch_and_a_graded_count_say_all_they_know() -> None:
    document = case("ferry_smock")
    document["pieces"]["sleeve"]["cut"][0]["count"] = {"S": 2, "M": 2, "L": 4}
    document["pieces"]["back"]["notches"]["pitch"]["use"] = "place"
    drawing = draw_pattern(nest_of(document))
    back, sleeve = (next(g for g in drawing.groups if g.name == name) for name in ("back", "sleeve"))
    [tick, *_] = [s for s in back.strokes if s.meaning == "notch"]
    expected = {
        "name": "pitch",
        "edge": "armhole",
        "kind": "double",
        "width": 8.0,
        "use": "place",
        "size": "S",
    }
    assert {key: tick.facts.get(key) for key in expected} == expected  # type: ignore[call-overload]
    counts = {t.facts.get("size"): t.facts["quantity"] for t in sleeve.texts if "quantity" in t.facts}
    assert counts == {"S": 2, "M": 2, "L": 4}
