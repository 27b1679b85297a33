"""Grade rules as they are written: applied by a few lines of their own, they give every size's outline."""

from __future__ import annotations

import json
import re
from typing import Any

import numpy as np
import pytest
import shapely
from dxf_written import Complexes, Trip, trip, trip_of
from patterns import case, nest_of

from notchwork.demo import example
from notchwork.draw import draw_pattern
from notchwork.findings import NotchworkError
from notchwork.geometry import lengths, nearest, points
from notchwork.sewing import Nest
from notchwork_plugins.dxf.write.convention import write_bare, write_valid
from notchwork_plugins.dxf.write.options import OPTIONS, chosen

CHORD = 0.05
ROUNDED = 2e-4
"""mm: place and shift are written to four decimals each."""


def table(text: str) -> tuple[dict[str, str], dict[int, list[complex]]]:
    """A rule file read by facts A19: heads, and the shifts of every rule in the order of the sizes."""
    head, *rules = text.split("RULE: DELTA ")
    heads = dict(line.split(": ", 1) for line in head.strip().splitlines())
    found = {}
    for rule in rules:
        number, shifts = rule.splitlines()[:2]
        found[int(number)] = [complex(float(x), float(y)) for x, y in re.findall(r"(\S+), (\S+)", shifts)]
    return heads, found


def graded(found: Trip, block: str, layer: int, size: str, suffix: str = ".rul") -> list[Complexes]:
    """The polylines of a block in another size: each vertex moved by the rule whose number stands exactly at it."""
    heads, rules = table(found.written.files[suffix].decode("ascii"))
    k = heads["SIZE LIST"].split().index(size)
    by_place = {
        (text.dxf.insert.x, text.dxf.insert.y): int(text.dxf.text[2:])
        for text in found.blocks[block].query("TEXT")
        if text.dxf.text.startswith("# ")
    }
    return [
        np.array([v + rules[by_place[v.real, v.imag]][k] for v in line.tolist()])
        for line in found.lines(block, layer)
    ]


def demo() -> Nest:
    return nest_of(json.loads(example("sound.pattern.json")))


def ring_length(z: Complexes) -> float:
    return float(np.abs(np.diff(np.append(z, z[0]))).sum())


@pytest.fixture(scope="module")
def smock() -> Trip:
    return trip(case("ferry_smock"), {"nest": "rules"})


def test_the_rule_file_has_the_grammar_of_the_facts(smock: Trip) -> None:
    """Facts A19, from memory of ASTM D6673: keys, one pair for each size, 0 for the sample size."""
    text = smock.written.files[".rul"].decode("ascii")
    heads, rules = table(text)
    assert heads == {
        "UNITS": "METRIC",
        "GRADE RULE TABLE": "FERRY_SMOCK",
        "NUMBER OF SIZES": "3",
        "SIZE LIST": "S M L",
        "SAMPLE SIZE": "M",
    }
    assert list(rules) == list(range(1, len(rules) + 1))
    assert all(len(shifts) == 3 and shifts[1] == 0 for shifts in rules.values())
    assert len({tuple(shifts) for shifts in rules.values()}) == len(rules)
    assert text.endswith("END\r\n")
    assert "RULE: DELTA 1\r\n0.0, 0.0  0.0, 0.0  0.0, 0.0\r\n" in text
    assert set(smock.blocks) == {"FRONT", "BACK", "SLEEVE", "NECK_BINDING"}
    style = [text.dxf.text for text in smock.read.modelspace().query("TEXT")]
    assert "GRADE RULE TABLE: FERRY_SMOCK" in style


def test_shifts_are_those_of_the_document(smock: Trip) -> None:
    """The rules of the example that its maker wrote are among them, as they stand: shifts from the base size."""
    _, rules = table(smock.written.files[".rul"].decode("ascii"))
    written = case("ferry_smock")["grade_rules"]
    for name in ("tip", "underarm", "side"):
        small, large = (complex(*written[name][size]) for size in "SL")
        assert [small, 0, large] in rules.values()


def test_every_place_has_its_rule(smock: Trip) -> None:
    """Facts A18: TEXT "# n" on layer 2 or 3 at the point."""
    for name, block in smock.blocks.items():
        references = [t for t in block.query("TEXT") if t.dxf.text.startswith("# ")]
        assert {t.dxf.layer for t in references} <= {"2", "3"}
        referred = {(t.dxf.insert.x, t.dxf.insert.y) for t in references}
        for layer in (1, 14):
            for z in smock.lines(name, layer):
                assert {(v.real, v.imag) for v in z.tolist()} <= referred
        for layer in (2, 3, 4, 13):
            spots = block.query(f'POINT[layer=="{layer}"]')
            assert {(p.dxf.location.x, p.dxf.location.y) for p in spots} <= referred
        for line in (*block.query('LINE[layer=="6"]'), *block.query('LINE[layer=="7"]')):
            assert {line.dxf.start.vec2, line.dxf.end.vec2} <= {*map(_vec, referred)}


def test_points_stand_at_corners_and_nodes_as_they_do_without_rules(smock: Trip) -> None:
    """Facts A6: what lies between two curve points is interpolated, and no curve point, though it has a rule of its own."""
    blocks = trip(case("ferry_smock"))
    for piece in smock.blocks:
        for layer in (2, 3):
            ruled = set(np.round(smock.points(piece, layer), 4).tolist())
            assert ruled == set(np.round(blocks.points(f"{piece}-M", layer), 4).tolist())
        # A strip has corners alone.
        (boundary,) = smock.lines(piece, 1)
        marked = {*smock.points(piece, 2).tolist(), *smock.points(piece, 3).tolist()}
        assert piece == "NECK_BINDING" or len(marked & set(boundary.tolist())) < len(boundary)


def _vec(xy: tuple[float, float]) -> Any:
    from ezdxf.math import Vec2

    return Vec2(xy)


def test_rules_give_the_blocks_of_every_size(smock: Trip) -> None:
    blocks = trip(case("ferry_smock"))
    for piece in smock.blocks:
        for size in "SML":
            for layer in (1, 14):
                (by_rules,), (by_blocks,) = (
                    graded(smock, piece, layer, size),
                    blocks.lines(f"{piece}-{size}", layer),
                )
                assert np.abs(by_rules - by_blocks).max() <= ROUNDED


@pytest.mark.parametrize("document", ["smock", "demo"])
def test_rules_give_every_outline_of_the_document(document: str) -> None:
    nest = demo() if document == "demo" else nest_of(case("ferry_smock"))
    found = trip_of(nest, draw_pattern(nest), {"nest": "rules"})
    assert found.written.findings == ()
    sizes = [str(size) for size in nest.sizes]
    for piece in nest.pieces:
        for k, size in enumerate(sizes):
            (sewn,) = graded(found, piece.upper(), 14, size)
            cubics = nest.outline(piece, k)
            assert nearest(cubics, sewn).distance.max() <= ROUNDED
            t = np.linspace(0, 1, 40)
            curve = points(cubics, np.repeat(np.arange(len(cubics)), 40), np.tile(t, len(cubics)))
            ends = np.append(sewn, sewn[0])
            line = shapely.LineString(np.stack([ends.real, ends.imag], axis=1))
            assert shapely.distance(line, shapely.points(curve.real, curve.imag)).max() <= CHORD + ROUNDED
            # An arc of radius r that turns by a small angle w is longer than its chord by r w³ / 24, and its sagitta is r w² / 8:
            # chords are shorter by a third of sagitta × turn. No piece turns by more than four rounds.
            whole = float(lengths(cubics).sum())
            assert whole - CHORD * 8 * np.pi / 3 < ring_length(sewn) <= whole + 0.01


def test_as_few_rules_as_points_that_move_alike(smock: Trip) -> None:
    """The design's example had 228 points and 171 rules in 11 kB with one outline for each piece; here are two, cut and sewn."""
    text = smock.written.files[".rul"]
    _, rules = table(text.decode("ascii"))
    cut = sum(len(z) for block in smock.blocks for z in smock.lines(block, 1))
    sewn = sum(len(z) for block in smock.blocks for z in smock.lines(block, 14))
    assert cut <= 228
    assert sewn <= 228
    assert len(rules) < cut + sewn
    assert len(text) < 20_000


def test_inches_have_rules_in_inches() -> None:
    found = trip(case("ferry_smock"), {"nest": "rules", "units": "english"})
    heads, rules = table(found.written.files[".rul"].decode("ascii"))
    assert heads["UNITS"] == "ENGLISH"
    # 12 mm are 0.472441 in.
    assert [complex(-0.472441, 0), 0, complex(0.472441, 0)] in rules.values()
    metric = trip(case("ferry_smock"), {"nest": "rules"})
    for size in "SL":
        (inches,), (mm,) = (graded(one, "SLEEVE", 14, size) for one in (found, metric))
        assert np.abs(25.4 * inches - mm).max() <= 3e-4


def test_a_bare_file_has_its_rules_beside_it() -> None:
    found = trip(case("ferry_smock"), {"nest": "rules"}, bare=True)
    assert set(found.written.files) == {".bare.dxf", ".bare.rul"}
    assert graded(found, "FRONT", 14, "L", ".bare.rul")


def bevelled() -> dict[str, Any]:
    """A pattern in which one piece has a corner more in one size, and another is cut twice as often there."""
    square = [
        {"at": [0, 0], "edge": "hem"},
        {"at": [100, 0], "edge": "side"},
        {"at": [100, 80], "edge": "top"},
        {"at": [0, 80], "edge": "center"},
    ]
    bevel = [*square[:2], {"at": [100, 60], "edge": "top"}, {"at": [80, 80]}, square[3]]
    return {
        "notchwork": "1.0",
        "sizes": {"names": ["S", "M", "L"], "base": "M"},
        "materials": {"felt": {}},
        "pieces": {
            "yoke": {"outlines": {"S": square, "M": square, "L": bevel}},
            "tab": {"outline": square, "cut": [{"material": "felt", "count": {"S": 1, "M": 1, "L": 2}}]},
            "flap": {"outline": square},
            "gusset": {"outlines": {"M": square, "L": square}},
        },
    }


def test_what_cannot_be_graded_goes_out_as_blocks_which_is_said() -> None:
    found = trip(bevelled(), {"nest": "rules"})
    assert set(found.blocks) == {
        "YOKE-S",
        "YOKE-M",
        "YOKE-L",
        "TAB-S",
        "TAB-M",
        "TAB-L",
        "FLAP",
        "GUSSET-M",
        "GUSSET-L",
    }
    said = {f.place.piece: (f.rule.id, f.values["why"]) for f in found.written.findings}
    assert said == {
        "yoke": ("dxf/not-by-rules", "its boundary has more corners in some sizes than in others"),
        "tab": ("dxf/not-by-rules", "its cut orders are not the same in every size"),
        "gusset": ("dxf/not-by-rules", "it is not there in every size"),
    }
    assert "QUANTITY: 2, 0" in found.texts("TAB-L", 1)
    assert not any(text.startswith("# ") for block in ("YOKE-S", "TAB-L") for text in found.texts(block, 2))
    assert trip(bevelled()).written.findings == ()


def test_without_sizes_there_is_no_rule_file() -> None:
    document = case("two_panel_skirt")
    found = trip(document, {"nest": "rules"})
    assert set(found.written.files) == {".dxf"}
    assert found.written.findings == ()
    assert set(found.blocks) == {"FRONT", "BACK"}
    assert not any(text.startswith("SIZE") for text in found.texts("FRONT", 1))


@pytest.mark.parametrize(
    ("option", "value"),
    [
        ("chord", "0"),
        ("chord", "nan"),
        ("chord", "wide"),
        ("nest", "stacks"),
        ("units", "ells"),
        ("notches", "5"),
        ("notch_data", "x"),
        ("notch_angle", "up"),
        ("quantity", "some"),
    ],
)
def test_an_option_that_cannot_be_is_refused_in_plain_words(option: str, value: str) -> None:
    drawing = draw_pattern(nest_of(case("two_panel_skirt")))
    for write in (write_valid, write_bare):
        with pytest.raises(NotchworkError) as refused:
            write(drawing, {option: value})
        assert option in str(refused.value)
        assert refused.value.repair


def test_options_are_explained_and_their_defaults_hold() -> None:
    for option in OPTIONS:
        assert option.help
        assert option.default is not None
        assert chosen({option.name: option.default}) == chosen({})
    assert chosen({"units": "in"}) == chosen({"units": "english"})
    assert chosen({"chord": "0.1mm"}).chord == 0.1
