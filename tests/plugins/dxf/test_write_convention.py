"""The convention as it is written, read back by ezdxf as the reference: structure, layers, geometry, words."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import shapely
from drawn import small_patterns
from dxf_written import Complexes, Trip, as_read, trip
from hypothesis import given, settings
from patterns import CASES, Document, case, nest_of

from notchwork.demo import example
from notchwork.document import read_pattern
from notchwork.draw import Options, draw_pattern
from notchwork.geometry import lengths, nearest, part, points
from notchwork.sewing import Nest
from notchwork.sewing.shapes.cutlines import cut_lines
from notchwork_plugins.dxf.write.convention import write_bare, write_valid

CHORD = 0.05
SMOOTHED = 0.01
"""mm that the drawn cut line may lie beside the one that is computed (see geometry/smooth)."""
DIGITS = 1e-4
GARMENTS = sorted(path for path in CASES.rglob("*.pattern.json") if "measured" not in path.name)


def far(curve: Complexes, ring: Complexes) -> float:
    """How far points lie from a closed polyline at most."""
    ends = np.append(ring, ring[0])
    line = shapely.LineString(np.stack([ends.real, ends.imag], axis=1))
    return float(shapely.distance(line, shapely.points(curve.real, curve.imag)).max())


def along(nest: Nest, piece: str, size: int) -> Complexes:
    """Points along the stitch line."""
    cubics, t = nest.outline(piece, size), np.linspace(0, 1, 60)
    return points(cubics, np.repeat(np.arange(len(cubics)), 60), np.tile(t, len(cubics)))


def block_of(found: Trip, piece: str, size: str) -> str:
    return f"{piece.upper()}-{size}"


@pytest.fixture(scope="module")
def smock() -> Trip:
    return trip(case("ferry_smock"))


def test_general_programs_find_nothing_to_mend(smock: Trip) -> None:
    auditor = smock.read.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    assert smock.read.dxfversion == "AC1009"
    assert set(smock.blocks) == {
        f"{piece}-{size}" for piece in ("FRONT", "BACK", "SLEEVE", "NECK_BINDING") for size in "SML"
    }
    inserts = list(smock.read.modelspace().query("INSERT"))
    assert {insert.dxf.name for insert in inserts} == set(smock.blocks)
    assert all(insert.dxf.insert == (0, 0, 0) for insert in inserts)
    used = {entity.dxf.layer for block in smock.blocks.values() for entity in block}
    assert used <= {layer.dxf.name for layer in smock.read.layers}


def test_it_says_that_it_follows_and_counts_in_mm(smock: Trip) -> None:
    lines = smock.written.files[".dxf"].decode("ascii").split("\r\n")
    assert lines[:2] == ["999", "Follows ANSI/AAMA 292 and ASTM D6673 (withdrawn 2019)."]
    assert "conform" not in smock.written.files[".dxf"].decode().lower()
    # facts A10, A11: keys and units, from memory of ASTM D6673.
    assert [text.dxf.text for text in smock.read.modelspace().query("TEXT")] == [
        "STYLE NAME: Ferry smock",
        "SAMPLE SIZE: M",
        "UNITS: METRIC",
    ]


def test_bare_files_have_blocks_of_pieces_and_nothing_else() -> None:
    """Facts A14 and A15: a file whose blocks are not all pieces is refused by some importers."""
    found = trip(case("ferry_smock"), bare=True)
    lines = found.written.files[".bare.dxf"].decode("ascii").split("\r\n")
    pairs = list(zip(lines[::2], lines[1::2], strict=False))
    sections = [pairs[k + 1][1] for k, pair in enumerate(pairs) if pair == ("0", "SECTION")]
    assert sections == ["BLOCKS", "ENTITIES"]
    names = [pairs[k + 2][1] for k, pair in enumerate(pairs) if pair == ("0", "BLOCK")]
    assert len(names) == 12
    assert names == [pairs[k + 2][1] for k, pair in enumerate(pairs) if pair == ("0", "INSERT")]
    assert not any(name.startswith(("*", "$")) for name in names)
    assert not any(code in ("5", "330", "100", "1001") for code, _ in pairs)
    assert pairs[-1] == ("0", "EOF") or lines[-3:-1] == ["0", "EOF"]


@pytest.mark.parametrize("path", GARMENTS, ids=lambda path: path.name.partition(".")[0])
@pytest.mark.parametrize("options", [{}, {"nest": "rules"}], ids=["blocks", "rules"])
def test_every_garment_is_sound_in_either_profile(path: Path, options: dict[str, str]) -> None:
    pattern = read_pattern(path.read_bytes(), path.name).pattern
    assert pattern is not None
    nest = Nest(pattern)
    for drawing in (Options(), Options(unfolded=True), Options(allowances=False)):
        drawn = draw_pattern(nest, drawing)
        if not drawn.groups:
            continue
        found = Trip(nest, write_valid(drawn, options), None)
        found.read = as_read(found.written.files[".dxf"])
        assert not found.read.audit().has_errors
        assert len(found.blocks) == len(found.read.modelspace().query("INSERT"))
        for name, block in found.blocks.items():
            (boundary,) = block.query('POLYLINE[layer=="1"]')
            assert boundary.is_closed
            assert len(boundary.vertices) > 2, name
            assert all(line.is_closed for line in block.query('POLYLINE[layer=="14"]'))
        assert write_bare(drawn, options).files.keys() <= {".bare.dxf", ".bare.rul"}


def test_outlines_lie_within_the_chord_error_of_our_curves(smock: Trip) -> None:
    nest = smock.nest
    cuts = cut_lines(nest)
    for piece in nest.pieces:
        for k, size in enumerate("SML"):
            (sewn,) = smock.lines(block_of(smock, piece, size), 14)
            assert far(along(nest, piece, k), sewn) <= CHORD
            (boundary,) = smock.lines(block_of(smock, piece, size), 1)
            assert far(cuts[piece, k].points, boundary) <= CHORD + SMOOTHED
            # And no vertex lies anywhere else: a polyline could go astray between points that are near to it.
            assert nearest(nest.outline(piece, k), sewn).distance.max() <= DIGITS


def test_a_finer_chord_has_more_vertices_and_lies_closer() -> None:
    coarse, fine = (trip(case("ferry_smock"), {"chord": chord}) for chord in ("0.5", "0.01"))
    counts = [len(found.lines("FRONT-M", 14)[0]) for found in (coarse, fine)]
    assert counts[0] < 0.3 * counts[1]
    assert far(along(fine.nest, "front", 1), fine.lines("FRONT-M", 14)[0]) <= 0.01
    assert far(along(coarse.nest, "front", 1), coarse.lines("FRONT-M", 14)[0]) > 0.1


def test_vertices_of_all_sizes_answer_each_other(smock: Trip) -> None:
    for piece in smock.nest.pieces:
        for layer in (1, 14):
            by_size = [smock.lines(block_of(smock, piece, size), layer)[0] for size in "SML"]
            assert len({len(z) for z in by_size}) == 1
            corners = [
                [
                    int(np.abs(z - at).argmin())
                    for at in smock.points(block_of(smock, piece, size), 2)
                    if np.abs(z - at).min() == 0
                ]
                for z, size in zip(by_size, "SML", strict=True)
            ]
            assert corners[0] == corners[1] == corners[2]
            assert len(corners[0]) >= 4


def test_corners_and_nodes_are_points_on_both_outlines(smock: Trip) -> None:
    """Facts A7 and A8: turn points on layer 2, curve points on layer 3, at the coordinates of vertices."""
    nest = smock.nest
    for piece in nest.pieces:
        block = block_of(smock, piece, "M")
        vertices = np.concatenate([*smock.lines(block, 1), *smock.lines(block, 14)])
        for layer in (2, 3):
            for z in smock.points(block, layer):
                assert np.abs(vertices - z).min() == 0.0
        corners = [
            complex(nest.cubics_of(nest.pieces[piece].lines[e], 1)[0, 0]) for e in nest.pieces[piece].edges
        ]
        turns = smock.points(block, 2)
        assert all(np.abs(turns - corner).min() < DIGITS for corner in corners)
    # The crown is a node inside the cap, and no corner.
    assert np.abs(smock.points("SLEEVE-M", 3) - 412j).min() < DIGITS
    assert np.abs(smock.points("SLEEVE-M", 2) - 412j).min() > 1.0


def test_a_half_ends_on_its_mirror_line(smock: Trip) -> None:
    """Facts A20: the mirror line lies on the fold edge of the half piece, from end to end."""
    for block in ("FRONT-S", "BACK-L"):
        (mirror,) = smock.blocks[block].query('LINE[layer=="6"]')
        ends = [complex(mirror.dxf.start.x, mirror.dxf.start.y), complex(mirror.dxf.end.x, mirror.dxf.end.y)]
        (boundary,) = smock.lines(block, 1)
        on_it = boundary[np.abs(boundary.real) < DIGITS]
        assert sorted(z.imag for z in ends) == pytest.approx([on_it.imag.min(), on_it.imag.max()])
        assert boundary.real.min() > -DIGITS


def test_unfolded_its_area_doubles_and_nothing_is_mirrored() -> None:
    """Facts A20: expansion across the mirror line doubles the area."""

    def area(found: Trip, layer: int) -> float:
        (z,) = found.lines("FRONT-M", layer)
        return float(abs((z.conj() * np.roll(z, -1)).imag.sum()) / 2)

    half, whole = trip(case("ferry_smock")), trip(case("ferry_smock"), drawing=Options(unfolded=True))
    for layer in (1, 14):
        assert area(whole, layer) == pytest.approx(2 * area(half, layer), abs=0.5)
    assert not whole.blocks["FRONT-M"].query('LINE[layer=="6"]')
    assert len(whole.points("FRONT-M", 4)) == 2 * len(half.points("FRONT-M", 4))
    (opened,) = whole.blocks["FRONT-M"].query('LINE[layer=="8"]')
    assert opened.dxf.start.x == opened.dxf.end.x == 0.0
    names = whole.texts("FRONT-M", 15)
    # The neck runs on across the fold, the other edges are there on either side.
    assert names.count("EDGE: neck") == 1
    assert names.count("EDGE: armhole") == 2


QUARTER = {
    "notchwork": "1.0",
    "pieces": {
        "cloth": {
            "outline": [
                {"at": [0, 0], "edge": "lower"},
                {"at": [300, 0], "edge": "side"},
                {"at": [300, 200], "edge": "upper"},
                {"at": [0, 200], "edge": "left"},
            ],
            "allowance": 10,
            "edges": {"lower": {"fold": True}, "left": {"fold": True}},
        },
        "disc": {
            "outline": [
                {"at": [100, 0], "edge": "right"},
                {"at": [400, 0], "out": [400, 220.914], "edge": "hem"},
                {"at": [0, 400], "in": [220.914, 400], "edge": "left"},
                {"at": [0, 100], "out": [55.2285, 100], "edge": "waist"},
            ],
            "allowance": 10,
            "edges": {"right": {"fold": True}, "left": {"fold": True}},
        },
    },
}
QUARTER["pieces"]["disc"]["outline"][0]["in"] = [100, 55.2285]  # type: ignore[index]


def test_between_two_folds_that_meet_the_boundary_goes_round_their_corner() -> None:
    found = trip(QUARTER)
    (boundary,) = found.lines("CLOTH", 1)
    assert np.abs(boundary).min() < DIGITS
    assert sorted(boundary, key=lambda z: (z.real, z.imag)) == pytest.approx([0, 210j, 310, 310 + 210j])


def test_the_middle_of_a_whole_circle_is_cut_out() -> None:
    found = trip(QUARTER, drawing=Options(unfolded=True))
    (hem,), (waist,) = found.lines("DISC", 1), found.lines("DISC", 11)
    # The hem is cut 10 mm outside its radius of 400, the waist 10 mm inside its radius of 100.
    assert np.abs(np.abs(hem) - 410).max() < 0.3
    assert np.abs(np.abs(waist) - 90).max() < 0.3
    assert len(found.lines("DISC", 14)) == 2
    (whole,) = found.lines("CLOTH", 1)
    corners = [z for z in whole if np.abs(found.points("CLOTH", 2) - z).min() == 0.0]
    assert sorted(corners, key=lambda z: (z.real, z.imag)) == pytest.approx(
        [-310 - 210j, -310 + 210j, 310 - 210j, 310 + 210j]
    )


def test_notches_lie_on_the_boundary_square_to_the_sew_line(smock: Trip) -> None:
    """Facts A16 and A17: POINT with depth in z and the angle in 50; from memory of ASTM D6673."""
    nest = smock.nest
    for piece, notch, count in (("front", "pitch", 1), ("back", "pitch", 2), ("sleeve", "front_pitch", 1)):
        line = nest.pieces[piece].lines[nest.pattern.pieces[piece].notches[notch].edge]  # type: ignore[union-attr]
        for k, size in enumerate("SML"):
            block = block_of(smock, piece, size)
            (boundary,) = smock.lines(block, 1)
            spots = list(smock.blocks[block].query('POINT[layer=="4"]'))
            arc = float(nest.notches[piece, notch][k])
            sewn = complex(nest.points(line, np.array([arc]), k)[0])
            z = np.array([complex(p.dxf.location.x, p.dxf.location.y) for p in spots])
            order = np.argsort(np.abs(z - sewn))[:count]
            assert far(z[order], boundary) < DIGITS
            if count == 1:
                spot = spots[int(order[0])]
                inward = np.exp(1j * np.radians(spot.dxf.angle))
                # 12 mm of allowance all along: straight inward by as much lies the place on the sew line.
                assert z[order[0]] + 12 * inward == pytest.approx(sewn, abs=CHORD)
                # No deeper than half the allowance (common practice, no source).
                assert spot.dxf.location.z == pytest.approx(6.0, abs=CHORD)
            else:
                assert abs(z[order[0]] - z[order[1]]) == pytest.approx(8.0, rel=0.25)


def test_what_a_notch_says_can_be_chosen() -> None:
    outward = trip(case("ferry_smock"), {"notch_angle": "outward", "notches": "81"})
    bare = trip(case("ferry_smock"), {"notch_data": "none"})
    (one,), (other,) = (
        found.blocks["FRONT-M"].query(f'POINT[layer=="{layer}"]')
        for found, layer in ((outward, 81), (bare, 4))
    )
    (usual,) = trip(case("ferry_smock")).blocks["FRONT-M"].query('POINT[layer=="4"]')
    assert (one.dxf.angle - usual.dxf.angle) % 360 == pytest.approx(180)
    assert other.dxf.location.z == 0.0
    assert not other.dxf.hasattr("angle")
    assert other.dxf.location.vec2 == usual.dxf.location.vec2


def test_inches_are_inches() -> None:
    """Facts A11: ENGLISH is inches; 25.4 mm each (International yard and pound agreement, 1959)."""
    metric, english = trip(case("ferry_smock")), trip(case("ferry_smock"), {"units": "english"})
    assert "UNITS: ENGLISH" in [text.dxf.text for text in english.read.modelspace().query("TEXT")]
    for block in metric.blocks:
        for layer in (1, 14):
            (mm,), (inches,) = metric.lines(block, layer), english.lines(block, layer)
            assert np.abs(25.4 * inches - mm).max() < DIGITS


def test_words_of_a_piece(smock: Trip) -> None:
    assert smock.texts("SLEEVE-L", 1) == [
        "PIECE NAME: Sleeve",
        "SIZE: L",
        "QUANTITY: 1, 1",
        "MATERIAL: linen",
    ]
    total = trip(case("ferry_smock"), {"quantity": "total"})
    assert "QUANTITY: 2" in total.texts("SLEEVE-L", 1)
    assert sorted(smock.texts("SLEEVE-M", 15)) == [
        "EDGE: back_seam",
        "EDGE: cap",
        "EDGE: front_seam",
        "EDGE: hem",
        "LIMIT: ease from here",
        "LIMIT: ease to here",
        "MATCH: C",
        "MATCH: C",
        "MATCH: D",
        "NOTCH: back_pitch",
        "NOTCH: front_pitch",
    ]


def test_names_stand_on_what_they_name(smock: Trip) -> None:
    nest = smock.nest
    for text in smock.blocks["FRONT-M"].query('TEXT[layer=="15"]'):
        at = np.array([complex(text.dxf.insert.x, text.dxf.insert.y)])
        key, _, name = text.dxf.text.partition(": ")
        if key == "EDGE":
            cubics = nest.cubics_of(nest.pieces["front"].lines[name], 1)
            ((off, row, t),) = zip(*nearest(cubics, at), strict=True)
            assert off <= CHORD
            before = np.append(
                lengths(cubics[: int(row)]), lengths(part(cubics[int(row)], 0.0, float(t))[None])
            )
            assert before.sum() / lengths(cubics).sum() == pytest.approx(0.5, abs=1e-3)
        elif key == "NOTCH":
            assert np.abs(smock.points("FRONT-M", 4) - at).min() == 0.0


def test_everything_inside_a_piece_has_its_layer_and_name() -> None:
    found = trip(case("every_key"))
    block = found.blocks["FRONT-38"]
    assert {
        "CASING: casing | edge=hem | depth=60 | width=9",
        "CUT OUT: eyelet",
        "DART: fish",
        "DART: waist_dart | to=center",
        "MARK: button | kind=button",
        "NOTCH: left_foot | use=place",
        "PLACEMENT: pocket",
        "TOPSTITCH: patch",
        "GRAIN: lengthwise",
    } <= set(found.texts("FRONT-38", 15))
    (eyelet,) = block.query('POLYLINE[layer=="11"]')
    assert eyelet.is_closed
    lines = found.lines("FRONT-38", 8)
    apexes = found.points("FRONT-38", 13)
    darts = [z for z in lines if len(apexes[np.abs(apexes[:, None] - z).min(axis=1) < DIGITS])]
    assert len(darts) == 3
    # Facts A7: drill holes on layer 13. Four points of darts, one of them double, and the button.
    assert len(apexes) == 5
    back = found.blocks["BACK-38"]
    assert len(back.query('LINE[layer=="8"]')) == 2
    assert "PLEAT: kick | to=center | edge=hem" in found.texts("BACK-38", 15)


def test_where_no_allowances_are_drawn_the_boundary_is_the_sew_line_and_says_so() -> None:
    found = trip(case("ferry_smock"), drawing=Options(allowances=False))
    (boundary,) = found.lines("FRONT-M", 1)
    assert far(along(found.nest, "front", 1), boundary) <= CHORD
    assert found.lines("FRONT-M", 14) == []
    assert "ANNOTATION: the boundary is the sew line, no allowance is drawn" in found.texts("FRONT-M", 1)
    assert "EDGE: neck" in found.texts("FRONT-M", 15)


def test_pieces_lie_apart_in_a_general_program_and_keep_their_coordinates(smock: Trip) -> None:
    boxes = []
    for insert in smock.read.modelspace().query("INSERT"):
        if not insert.dxf.name.endswith("-M"):
            continue
        placed = [e for e in insert.virtual_entities() if e.dxftype() == "POLYLINE" and e.dxf.layer == "1"]
        z = np.array([complex(v.dxf.location.x, v.dxf.location.y) for v in placed[0].vertices])
        boxes.append(shapely.box(z.real.min(), z.imag.min(), z.real.max(), z.imag.max()))
    assert len(boxes) == 4
    assert not any(a.intersects(b) for k, a in enumerate(boxes) for b in boxes[:k])
    low, high = smock.read.header["$EXTMIN"], smock.read.header["$EXTMAX"]
    whole = shapely.box(low[0], low[1], high[0], high[1])
    assert all(whole.buffer(0.001).contains(box) for box in boxes)


def test_the_demo_is_written_in_all_its_sizes() -> None:
    pattern = read_pattern(example("sound.pattern.json"), "demo").pattern
    assert pattern is not None
    nest = Nest(pattern)
    written = write_valid(draw_pattern(nest), {"nest": "rules"})
    assert written.findings == ()
    assert written == write_valid(draw_pattern(Nest(pattern)), {"nest": "rules"})


HOSTILE = (
    "\\U+0041 and \\M+18140",
    "two\nlines\r\n0\nEOF",
    "Ärmel 👗 袖",
    "^J caret %%d",
    "x" * 400,
    "Ä" * 90,
    "SIZE: 12",
)


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
@pytest.mark.parametrize("options", [{}, {"nest": "rules"}], ids=["blocks", "rules"])
def test_hostile_names_stay_words(name: str, options: dict[str, str]) -> None:
    document: Document = case("ferry_smock")
    document["title"] = name
    document["pieces"]["front"]["name"] = name
    document["materials"]["linen"]["name"] = name
    found = trip(document, options)
    assert not found.read.audit().has_errors
    assert len(found.blocks) == (12 if not options else 4)
    said = found.texts("FRONT-M" if not options else "FRONT", 1)[0]
    assert said.startswith("PIECE NAME: ")
    plain = " ".join(name.encode("utf-16", "surrogatepass").decode("utf-16").split())
    back = said.removeprefix("PIECE NAME: ").encode("utf-16", "surrogatepass").decode("utf-16")
    if len(name) > 80:
        assert back.endswith("…")
        assert plain.startswith(back.removesuffix("…"))
        assert [finding.rule.id for finding in found.written.findings] == ["dxf/cut-short"]
    else:
        assert " ".join(back.split()) == plain
        assert found.written.findings == ()


def test_ids_and_sizes_may_be_called_anything() -> None:
    document = {
        "notchwork": "1.0",
        "sizes": {"names": ["UK 8", "UK_8", "größer"], "base": "UK 8", "ordered": True},
        "grade_rules": {"out": {"UK_8": [5, 0], "größer": [9, 1]}},
        "pieces": {
            name: {
                "outline": [
                    {"at": [0, 0], "edge": "hem"},
                    {"at": [100, 0], "edge": "side", "grade": "out"},
                    {"at": [0, 150], "edge": "center"},
                ]
            }
            for name in ("$Model_Space", "袖", "袖口", "a_very_long_name_of_a_piece_that_goes_on")
        },
    }
    for options in ({}, {"nest": "rules"}):
        found = trip(document, options)
        assert not found.read.audit().has_errors
        assert len(found.blocks) == (4 if options else 12)
    assert [finding.rule.id for finding in found.written.findings] == ["dxf/sizes-renamed"]
    rules = found.written.files[".rul"].decode("ascii")
    assert "SIZE LIST: UK_8 UK_8_2 gr\\U+00F6\\U+00DFer\r\n" in rules
    assert "SAMPLE SIZE: UK_8\r\n" in rules


@settings(max_examples=25, deadline=None)
@given(small_patterns())
def test_any_pattern_is_written_as_it_is_drawn(document: Document) -> None:
    nest = nest_of(document)
    found = trip(document)
    assert not found.read.audit().has_errors
    for piece, graded in nest.pieces.items():
        for k, size in enumerate(nest.sizes):
            if not graded.present[k]:
                continue
            block = piece.upper() + (f"-{size}" if size is not None else "")
            (sewn,) = found.lines(block, 14)
            assert far(along(nest, piece, k), sewn) <= CHORD
