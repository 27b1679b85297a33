"""Plain drawings of Release 2010, with ezdxf as the reference, and what an entity of one says of itself."""

from __future__ import annotations

import io
import json
import math
import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import ezdxf
import numpy as np
import pytest
import shapely
from drawn import small_patterns
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from patterns import Document, case, nest_of

from notchwork.document import write_pattern
from notchwork.draw import draw_pattern
from notchwork.drawing import Dot, Drawing, Group, Stroke, Text, line_style
from notchwork.drawing.meaning import FACTS, MEANINGS, NUMBERS
from notchwork.findings import NotchworkError, worded
from notchwork.formats import Source
from notchwork.geometry import is_straight, lines, points
from notchwork_plugins.dxf import plugin
from notchwork_plugins.dxf.attached import APPLICATION, MOST_STRING, document_of
from notchwork_plugins.dxf.said import Chords, Said, said_of, strings_of
from notchwork_plugins.dxf.write.cad import write_cad

Complexes = NDArray[np.complex128]
HAIR = 0.005
"""mm: curves that are straighter are written straight."""
DIGITS = 1e-9


def data_of(drawing: Drawing, options: Mapping[str, str] | None = None) -> bytes:
    return dict(write_cad(drawing, options or {}).files)[".cad.dxf"]


def as_ezdxf(drawing: Drawing, options: Mapping[str, str] | None = None) -> Any:
    return ezdxf.read(io.StringIO(data_of(drawing, options).decode("utf-8"), newline=None))


def read_again(data: bytes) -> Drawing:
    drawing = plugin.read(Source("test.cad.dxf", data), {}).drawing
    assert drawing is not None
    return drawing


@pytest.fixture(scope="module")
def smock() -> Drawing:
    return draw_pattern(nest_of(case("ferry_smock")))


def alone(*parts: Stroke | Dot | Text) -> Drawing:
    return Drawing(
        (
            Group(
                "front",
                tuple(part for part in parts if isinstance(part, Stroke)),
                tuple(part for part in parts if isinstance(part, Dot)),
                tuple(part for part in parts if isinstance(part, Text)),
            ),
        )
    )


@pytest.mark.parametrize("name", ["ferry_smock", "every_key", "two_panel_skirt"])
@pytest.mark.parametrize("curves", ["splines", "polylines"])
def test_general_programs_find_nothing_to_mend(name: str, curves: str) -> None:
    pattern = nest_of(case(name))
    drawing = replace(draw_pattern(pattern), attached=write_pattern(pattern.pattern))
    found = as_ezdxf(drawing, {"curves": curves})
    auditor = found.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    # DXF reference of Autodesk: AC1024 is Release 2010, $INSUNITS 4 are mm.
    assert found.dxfversion == "AC1024"
    assert found.header["$INSUNITS"] == 4


def test_layers_are_meanings_and_sizes(smock: Drawing) -> None:
    found = as_ezdxf(smock)
    layers = {entity.dxf.layer for entity in found.modelspace()}
    assert {"stitch S", "stitch M", "stitch L", "cut M", "notch L", "name", "fold M"} <= layers
    assert all(name.split()[0] in MEANINGS for name in layers)
    assert layers <= {layer.dxf.name for layer in found.layers}
    assert "stitch" in {e.dxf.layer for e in as_ezdxf(one_size()).modelspace()}


def one_size() -> Drawing:
    return draw_pattern(nest_of(case("two_panel_skirt")))


def test_layers_look_like_what_they_mean(smock: Drawing) -> None:
    found = as_ezdxf(smock)
    for size in smock.sizes:
        style = line_style("stitch", size, smock.sizes, smock.base)
        layer = found.layers.get(f"stitch {size}")
        pattern = [
            abs(length) for length in found.linetypes.get(layer.dxf.linetype).simplified_line_pattern()
        ]
        assert pattern == pytest.approx(list(style.dashes))
    assert found.layers.get("cut M").color != found.layers.get("stitch M").color


def entities_of(found: Any, drawing: Drawing) -> list[tuple[Group, Stroke, Any]]:
    """Each stroke with its entity: both are in the drawing's order."""
    drawn = [entity for entity in found.modelspace() if entity.dxftype() in ("SPLINE", "LWPOLYLINE")]
    strokes = [(group, stroke) for group in drawing.groups for stroke in group.strokes if len(stroke.cubics)]
    return [(group, stroke, entity) for (group, stroke), entity in zip(strokes, drawn, strict=True)]


def test_splines_are_our_curves(smock: Drawing) -> None:
    count = 0
    for group, stroke, entity in entities_of(as_ezdxf(smock), smock):
        if entity.dxftype() == "LWPOLYLINE":
            assert is_straight(stroke.cubics, HAIR).all()
            continue
        count += 1
        spline = entity.construction_tool()
        assert spline.degree == 3
        assert not spline.is_rational
        # One unit of its parameter is one cubic.
        t = np.linspace(0, len(stroke.cubics), 50)
        theirs = np.array([complex(p.x, p.y) for p in spline.points(t)])
        rows = np.minimum(t.astype(int), len(stroke.cubics) - 1)
        ours = points(stroke.cubics + group.shift, rows, t - rows)
        assert np.abs(theirs - ours).max() < DIGITS
    assert count > 20


@pytest.mark.parametrize("chord", ["0.5", "0.1", "0.01"])
def test_polylines_keep_within_their_chord(smock: Drawing, chord: str) -> None:
    vertices = 0
    for group, stroke, entity in entities_of(as_ezdxf(smock, {"curves": "polylines", "chord": chord}), smock):
        assert entity.dxftype() == "LWPOLYLINE"
        at = [complex(x, y) for x, y in entity.get_points("xy")]
        vertices += len(at)
        ends = [*at, at[0]] if entity.closed else at
        t = np.linspace(0, 1, 40)
        cubics = stroke.cubics + group.shift
        curve = points(cubics, np.repeat(np.arange(len(cubics)), 40), np.tile(t, len(cubics)))
        line = shapely.LineString([(z.real, z.imag) for z in ends])
        assert shapely.distance(line, shapely.points(curve.real, curve.imag)).max() <= float(chord)
    # Vertices go by the root of the chord error (Wang's formula; geometry/measures).
    assert vertices > {"0.5": 400, "0.1": 700, "0.01": 1800}[chord]


def test_a_line_that_closes_with_a_gap_is_closed_straight() -> None:
    bent = np.array([[0, 30 + 40j, 70 + 40j, 100 + 0j]])
    for curves in ("splines", "polylines"):
        (entity,) = as_ezdxf(alone(Stroke(bent, "cut", True)), {"curves": curves}).modelspace()
        at = [
            complex(p.x, p.y)
            for p in (entity.flattening(0.01) if curves == "splines" else entity.vertices_in_wcs())
        ]
        along = at if curves == "splines" else [*at, at[0]]
        assert entity.dxftype() == "SPLINE" or entity.closed
        assert along[-1] == pytest.approx(along[0])
        ring = shapely.LinearRing([(z.real, z.imag) for z in along])
        # The area under a cubic between its ends (Green's theorem): 0.6 of base times height of handles... by shapely twice as fine.
        curve = points(bent, np.zeros(2000, dtype=np.intp), np.linspace(0, 1, 2000))
        area = shapely.Polygon([(z.real, z.imag) for z in curve]).area
        assert shapely.Polygon(ring).area == pytest.approx(area, rel=1e-3)


def test_texts_stand_where_they_stood_and_turn_as_they_did() -> None:
    text = Text(10 + 20j, "Rücken, 2× „Leinen“", 6.0, "note", "middle", 30.0)
    (entity,) = as_ezdxf(alone(text)).modelspace()
    assert entity.dxf.text == text.words
    assert entity.dxf.height == 6.0
    assert entity.dxf.rotation == 30.0
    alignment, at, _ = entity.get_placement()
    assert alignment.name == "CENTER"
    assert (at.x, at.y) == (10.0, 20.0)


def test_the_same_drawing_gives_the_same_bytes(smock: Drawing) -> None:
    again = draw_pattern(nest_of(case("ferry_smock")))
    for options in ({}, {"curves": "polylines"}):
        assert data_of(smock, options) == data_of(again, options)
    data = data_of(smock)
    assert all(year not in data for year in (b"\n20261", b"Written by"))


def test_nobody_elses_files_lose_their_date() -> None:
    from ezdxf._options import options

    before = options.write_fixed_meta_data_for_testing
    data_of(one_size())
    assert options.write_fixed_meta_data_for_testing == before


@pytest.mark.parametrize("size", [1, 200, 60_000])
def test_the_document_is_an_entry_of_the_root_dictionary(size: int) -> None:
    document = bytes(k * 7919 % 251 for k in range(size))
    drawing = replace(one_size(), attached=document)
    found = as_ezdxf(drawing)
    record = found.rootdict[APPLICATION]
    assert record.dxftype() == "XRECORD"
    strings = [tag.value for tag in record.tags]
    assert all(tag.code == 1 and len(tag.value) <= MOST_STRING for tag in record.tags)
    assert document_of([strings]) == document
    assert read_again(data_of(drawing)).attached == document
    # Saved again by a general program, here ezdxf, it is still there.
    saved = io.StringIO()
    found.write(saved)
    assert read_again(saved.getvalue().encode()).attached == document


def test_a_document_that_was_damaged_is_told_and_the_drawing_read(smock: Drawing) -> None:
    data = data_of(replace(smock, attached=write_pattern(nest_of(case("ferry_smock")).pattern)))
    found = re.search(rb"document 1/1\r?\n *1\r?\n([^\r\n]+)(\r?\n *1\r?\n)", data)
    assert found is not None
    altered = data[: found.start(1)] + b"!" + data[found.start(1) + 1 :]
    shorter = data[: found.start(1)] + data[found.end() :]
    for broken in (altered, shorter):
        read = plugin.read(Source("test.cad.dxf", broken), {})
        assert read.drawing is not None
        assert read.drawing.attached is None
        assert len(read.drawing.groups) == len(smock.groups)
        assert "dxf/document-damaged" in {finding.rule.id for finding in read.findings}


HOSTILE = (
    "two\nlines\r\n0\nEOF",
    "^J caret ^ and %%d and \\P and {\\H2;big}",
    "袖 👗 Ärmel",
    "0\nSECTION",
    "x" * 3000,
    '<>/\\":;?*|=`,',
    " blank ",
)


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_names_stay_words(name: str) -> None:
    document: Document = json.loads(json.dumps(case("ferry_smock")).replace('"M"', json.dumps(name)))
    document["title"] = name
    document["pieces"]["front"]["name"] = name
    document["materials"]["linen"]["name"] = name
    drawing = draw_pattern(nest_of(document))
    data = data_of(drawing)
    found = ezdxf.read(io.StringIO(data.decode("utf-8"), newline=None))
    assert not found.audit().has_errors
    assert len(found.modelspace()) == len(as_ezdxf(draw_pattern(nest_of(case("ferry_smock")))).modelspace())
    again = read_again(data)
    assert again.title == drawing.title
    assert again.sizes == drawing.sizes
    assert [group.facts for group in again.groups] == [group.facts for group in drawing.groups]


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ({"curves": "arcs"}, "Option curves: It cannot be “arcs”. Choose splines or polylines."),
        ({"chord": "wide"}, "Option chord: It cannot be “wide”. Give a number of mm from 0.001 to 1"),
        ({"chord": "0"}, "It cannot be “0”."),
        ({"chord": "1.5"}, "from 0.001 to 1"),
        ({"chord": "nan"}, "It cannot be “nan”."),
    ],
)
def test_options_that_cannot_be_are_refused_in_clear_words(options: dict[str, str], said: str) -> None:
    with pytest.raises(NotchworkError) as error:
        write_cad(one_size(), options)
    assert said in str(error.value)


def by_name(drawing: Drawing) -> dict[str, Group]:
    return {group.name: group for group in drawing.groups}


@settings(max_examples=15, deadline=None)
@given(small_patterns())
def test_a_drawing_comes_back_with_all_its_meanings_and_facts(document: Document) -> None:
    drawing = draw_pattern(nest_of(document))
    again = read_again(data_of(drawing))
    assert (again.title, again.sizes, again.base, again.scale, again.fine) == (
        drawing.title,
        drawing.sizes,
        drawing.base,
        1.0,
        0.0,
    )
    mine, yours = by_name(drawing), by_name(again)
    assert set(mine) == set(yours)
    for name, group in mine.items():
        other = yours[name]
        assert (group.facts, group.shift, group.within) == (other.facts, other.shift, other.within)
        for one, back in zip(group.strokes, other.strokes, strict=True):
            assert (one.meaning, one.closed, dict(one.facts)) == (back.meaning, back.closed, dict(back.facts))
        assert [(dot.meaning, dot.facts) for dot in group.dots] == [(d.meaning, d.facts) for d in other.dots]
        for text, read in zip(group.texts, other.texts, strict=True):
            assert replace(text, at=0j, angle=0.0, words="") == replace(read, at=0j, angle=0.0, words="")
            assert (read.at, read.angle) == (pytest.approx(text.at, abs=1e-6), pytest.approx(text.angle))


NAMES = st.text(st.characters(codec="utf-8"), max_size=40)
FACT = st.dictionaries(st.sampled_from(sorted(FACTS - NUMBERS)), NAMES, max_size=3)
NUMBER = st.dictionaries(st.sampled_from(sorted(NUMBERS)), st.floats(-1e6, 1e6), max_size=3)
SAID = st.builds(
    Said,
    NAMES,
    st.sampled_from([None, *sorted(MEANINGS)]),
    st.builds(lambda a, b: {**a, **b}, FACT, NUMBER),
    st.complex_numbers(max_magnitude=1e6),
    st.booleans(),
    FACT,
    st.lists(NAMES, max_size=2).map(tuple),
    NAMES,
    st.lists(NAMES, max_size=2).map(tuple),
    st.one_of(st.none(), NAMES.filter(bool)),
    st.one_of(
        st.none(),
        st.sets(st.integers(0, 49), min_size=1).map(
            lambda nodes: Chords(50, tuple(sorted(nodes)), (min(nodes),), 0.01)
        ),
    ),
)


@given(SAID)
def test_what_an_entity_says_comes_back(said: Said) -> None:
    strings = strings_of(said)
    assert said_of(strings) == said
    # DXF reference of Autodesk, code 1000: 255 bytes a string. Blanks are trimmed and carets decoded by some programs.
    assert all(len(s) <= 250 and s.isascii() and s.isprintable() and not set(" ^") & set(s) for s in strings)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{}",
        "[]",
        "null",
        '{"group":7}',
        '{"group":"a","shift":[1]}',
        '{"group":"a","shift":[1e999,0]}',
        '{"group":"a","facts":[1]}',
        '{"group":"a","chords":[3,[0],[0]]}',
        '{"group":"a","chords":[3,["x"],[0],0.01]}',
        "[" * 5000,
        '{"group":"a"',
    ],
)
def test_what_was_altered_says_nothing(text: str) -> None:
    assert said_of([text]) is None


def test_what_no_drawing_knows_is_no_fact() -> None:
    text = (
        '{"group":"a","meaning":"dream","facts":{"name":"x","colour":"red","width":"wide","depth":NaN,"edge":3,'
        '"quantity":2},"chords":[3,[0,9],[0],0.01]}'
    )
    assert said_of([text]) == Said("a", None, {"name": "x", "quantity": 2.0}, beyond=(("depth", "nan"),))


def arc(count: int = 1) -> Stroke:
    """A quarter circle of 100 mm, cut at random into cubics that run on smoothly, then a corner and a straight line."""
    k = 4 / 3 * math.tan(math.pi / 8) * 100
    quarter = np.array([[100, 100 + 1j * k, k + 100j, 100j]])
    return Stroke(
        np.concatenate([quarter, lines(np.array([100j, 0j, 100 + 0j]))]), "cut", True, {"edge": "hem"}
    )


def test_a_polyline_is_its_curve_again() -> None:
    stroke = arc()
    again = read_again(data_of(alone(stroke), {"curves": "polylines", "chord": "0.05"}))
    (back,) = again.groups[0].strokes
    assert back.closed
    assert again.fine == 0.05
    assert back.cubics.shape == stroke.cubics.shape
    assert np.abs(back.cubics[:, [0, 3]] - stroke.cubics[:, [0, 3]]).max() < DIGITS
    t = np.linspace(0, 1, 200)
    curve = points(back.cubics, np.zeros(200, dtype=np.intp), t)
    assert np.abs(np.abs(curve) - 100).max() < 0.05


def test_a_polyline_that_was_edited_stays_as_it_is_drawn() -> None:
    found = as_ezdxf(alone(arc()), {"curves": "polylines"})
    (line,) = found.modelspace()
    line.append_points([(50, -20)], format="xy")
    saved = io.StringIO()
    found.write(saved)
    (back,) = read_again(saved.getvalue().encode()).groups[0].strokes
    assert is_straight(back.cubics, DIGITS).all()
    assert len(back.cubics) == len(line)
    assert back.facts == {"edge": "hem"}


def test_a_line_that_was_moved_in_a_cad_program_is_where_it_was_put(smock: Drawing) -> None:
    found = as_ezdxf(smock)
    for entity in found.modelspace():
        entity.translate(300, -50, 0)
    saved = io.StringIO()
    found.write(saved)
    mine, yours = by_name(smock), by_name(read_again(saved.getvalue().encode()))
    for name, group in mine.items():
        one, other = group.bounds, yours[name].bounds
        assert one is not None
        assert other is not None
        assert other[0] - one[0] == pytest.approx(300 - 50j)


@pytest.mark.parametrize("number", ["1e308", "9" * 400, "NaN"])
def test_a_number_that_cannot_be_is_told_where_it_stands_and_the_rest_is_read(number: str) -> None:
    files = write_cad(draw_pattern(nest_of(case("ferry_smock"))), {}).files
    data = re.sub(rb'"width":[\d.]+', b'"width":' + number.encode(), files[".cad.dxf"], count=1)
    done = plugin.read(Source("smock.cad.dxf", data), {})
    (told,) = [finding for finding in done.findings if finding.rule.id == "dxf/broken-part"]
    words = worded(told.text, told.values)
    (line,) = re.findall(r"^\w+ \(line (\d+)\): what is said of it cannot be \(width ", words)
    # From the line that is told to the next entity.
    entity = b"\n".join(data.splitlines()[int(line) :]).split(b"\n  0\n")[0]
    assert b'"width":' + number[:9].encode() in entity.replace(b"\n1000\n", b"")
    assert done.drawing is not None
    assert all(
        float(stroke.facts.get("width", 0.0)) <= 1000.0
        for group in done.drawing.groups
        for stroke in group.strokes
    )
