"""Blocks of the sewn-products convention become pieces. Layers and text keys are from memory of ASTM D6673-10."""

from __future__ import annotations

import random
import time
from itertools import pairwise

import numpy as np
import pytest
from dxf_convention import (
    OURS,
    Pattern,
    arc,
    extended,
    line,
    point,
    points,
    polyline,
    rectangle,
    seen,
    text,
    told,
)  # fmt: skip

from notchwork.drawing import Stroke
from notchwork.findings import NotchworkError, worded
from notchwork.formats import Read, Source
from notchwork.geometry import points as evaluated
from notchwork.model import in_size
from notchwork.recognise import Options
from notchwork.sewing import Nest
from notchwork_plugins.dxf.attached import parts_of
from notchwork_plugins.dxf.convention.kind import is_convention
from notchwork_plugins.dxf.file.reading import opened

CUT = rectangle(-10 - 10j, 210 + 310j)
SEWN = rectangle(0j, 200 + 300j)
NAMED = text("PIECE NAME: Front") + text("SIZE: 12")


def strokes(done: Read, meaning: str | None) -> list[Stroke]:
    assert done.drawing is not None
    return [stroke for group in done.drawing.groups for stroke in group.strokes if stroke.meaning == meaning]


def block(*parts: str) -> Pattern:
    return Pattern({"FRONT-12": NAMED + "".join(parts)})


def both() -> str:
    return polyline(1, CUT) + polyline(14, SEWN) + points(2, [*CUT, *SEWN])


def test_a_boundary_with_a_sew_line_is_a_piece_with_its_allowance() -> None:
    done = block(both()).read()
    piece = seen(done).pattern.pieces["front"]
    assert piece.name == "Front"
    assert piece.outline_is is None
    assert piece.allowance == 10.0
    assert done.drawing is not None
    assert (done.drawing.title, done.drawing.sizes, done.drawing.base) == ("Kittiwake", ("12",), "12")
    assert told(done) == set()


def test_a_boundary_alone_is_a_cut_line_of_which_the_allowance_is_asked_for() -> None:
    done = block(polyline(1, CUT)).read()
    found = seen(done)
    assert found.pattern.pieces["front"].outline_is == "cut_line"
    assert "recognised/outline-not-known" in {finding.rule.id for finding in found.findings}


@pytest.mark.parametrize("turned", [False, True], ids=["counter-clockwise", "clockwise"])
def test_a_stated_allowance_moves_the_stitch_line_in(turned: bool) -> None:
    done = block(polyline(1, CUT[::-1] if turned else CUT), point(4, 210 + 100j)).read()
    found = seen(done, Options(outline="cut", allowance=10.0))
    piece = found.pattern.pieces["front"]
    assert piece.outline_is is None
    assert piece.allowance == 10.0
    nest = Nest(found.pattern)
    lengths = {name: round(float(line.length[0]), 6) for name, line in nest.pieces["front"].lines.items()}
    assert lengths == {"bottom": 200.0, "right": 300.0, "top": 200.0, "left": 300.0}
    # Square to an edge, 110 mm up from the cut corner is 100 mm up from the sewn one.
    arc_of = float(nest.notches["front", "notch_1"][0])
    assert min(arc_of, 300.0 - arc_of) == pytest.approx(100.0)
    as_drawn = seen(done, Options(outline="stitch")).pattern.pieces["front"]
    assert as_drawn.outline_is is None


def test_without_turn_points_breaks_over_twenty_degrees_are_corners() -> None:
    # 19 degrees of break at the top, 90 and more elsewhere.
    rise = 100.0 * np.tan(np.radians(9.5))
    roof = [0j, 200 + 0j, 200 + 300j, complex(100, 300 + rise), 300j]
    blunt = seen(block(polyline(1, roof)).read()).pattern
    assert len(Nest(blunt).pieces["front"].edges) == 4
    sharp = [0j, 200 + 0j, 200 + 300j, complex(100, 300 + 2 * rise), 300j]
    assert len(Nest(seen(block(polyline(1, sharp)).read()).pattern).pieces["front"].edges) == 5


def test_turn_points_are_the_corners_even_where_the_line_runs_on() -> None:
    done = block(polyline(1, [*CUT[:2], 210 + 100j, *CUT[2:]]), points(2, [*CUT, 210 + 100j])).read()
    nest = Nest(seen(done).pattern)
    lengths = sorted(round(float(line.length[0])) for line in nest.pieces["front"].lines.values())
    assert lengths == [110, 210, 220, 220, 320]
    assert len(nest.pieces["front"].edges) == 5


def test_repeated_vertices_make_no_edges() -> None:
    doubled = [z for corner in CUT for z in (corner, corner)]
    plain, again = (Nest(seen(block(polyline(1, z)).read()).pattern) for z in (CUT, [*doubled, doubled[0]]))
    assert plain.pieces["front"].edges == again.pieces["front"].edges
    assert all(line.length[0] > 1.0 for line in again.pieces["front"].lines.values())


def test_a_boundary_of_lines_is_put_end_to_end() -> None:
    sides = [
        line(1, CUT[1], CUT[0]),
        line(1, CUT[1], CUT[2]),
        line(1, CUT[3], CUT[2]),
        line(1, CUT[3], CUT[0]),
    ]
    nest = Nest(seen(block(*sides).read()).pattern)
    lengths = sorted(round(float(edge.length[0]), 6) for edge in nest.pieces["front"].lines.values())
    assert lengths == [220.0, 220.0, 320.0, 320.0]


def test_an_open_boundary_is_told_with_its_gap() -> None:
    done = block(polyline(1, CUT, closed=False)).read()
    assert {"dxf/boundary-open", "dxf/block-without-boundary"} <= told(done)


def test_curves_come_back_from_their_chords() -> None:
    # An armhole of radius 100 mm in chords of 0.05 mm: 2 acos(1 - 0.05 / 100) a chord.
    hole = arc(200 + 300j, 100.0, 270.0, 180.0, 26)
    outline = [0j, 200 + 0j, *hole, 300j]
    done = block(polyline(1, outline), points(2, [0j, 200 + 0j, hole[0], hole[-1], 300j])).read()
    pattern = seen(done).pattern
    nest = Nest(pattern)
    lengths = sorted(float(edge.length[0]) for edge in nest.pieces["front"].lines.values())
    assert lengths[1] == pytest.approx(50.0 * np.pi, abs=0.01)  # a quarter of the circle
    (fit,) = [finding for finding in done.findings if finding.rule.id == "dxf/curves-fitted"]
    assert 0.0 <= float(str(fit.values["off"])) < 0.05
    assert len([s for s in strokes(done, "cut") if len(s.cubics) > 4]) == 0


def test_curve_points_stay_nodes_unless_every_vertex_is_one() -> None:
    hole = arc(200 + 300j, 100.0, 270.0, 180.0, 27)
    outline = [0j, 200 + 0j, *hole, 300j]
    corners = [0j, 200 + 0j, hole[0], hole[-1], 300j]

    def nodes(curves: list[complex]) -> np.ndarray:  # type: ignore[type-arg]
        done = block(polyline(1, outline), points(2, corners), points(3, curves)).read()
        return np.concatenate([stroke.cubics[:, 0] for stroke in strokes(done, "cut")])

    kept, passed_over = nodes([hole[7]]), nodes(hole[1:-1])
    assert np.abs(kept - hole[7]).min() < 1e-6
    assert len(passed_over) < 10


def test_a_curve_point_belongs_to_its_own_line_beside_one_that_runs_with_it() -> None:
    """Nothing is added at this curve: vertices of the boundary lie beside those of the sew line, and only they have points."""
    u = np.linspace(0.0, 1.0, 15)
    curve = np.array([[250, 175 + 20j, 75 + 20j, 0]], dtype=complex)

    def along(t: np.ndarray) -> list[complex]:  # type: ignore[type-arg]
        return [complex(z) for z in evaluated(curve, np.zeros(len(t), dtype=int), t)]

    sewn, cut = along(u), along(np.append(u[:-1] + 1e-4, 1.0))
    assert 0.01 < abs(sewn[4] - cut[4]) < 0.05
    seams, edges = [150j, 250 + 150j, *sewn], [-10 + 160j, 260 + 160j, 260 - 1j, *cut[1:-1], -10 - 1j]
    drawn = polyline(1, edges) + polyline(14, seams) + points(3, cut[4:9])
    corners = points(2, [*edges[:3], edges[-1], *seams[:3], seams[-1]])
    done = block(drawn, corners).read()
    (found,) = [s for s in strokes(done, "stitch") if abs(s.cubics[0, 0] - 250) < 1 and s.cubics[-1, 3] == 0]
    assert len(found.cubics) == 1
    assert np.abs(found.cubics - curve).max() < 0.1


def test_several_boundaries_are_holes_or_pieces_and_told() -> None:
    inside, beside = rectangle(50 + 50j, 80 + 80j), rectangle(300 + 0j, 400 + 100j)
    done = block(both(), polyline(1, inside), polyline(1, beside), point(13, 350 + 50j)).read()
    pieces = seen(done).pattern.pieces
    assert set(pieces) == {"front", "front_2"}
    assert len(pieces["front"].cutouts) == 1
    assert len(pieces["front_2"].marks) == 1
    assert "dxf/several-boundaries" in told(done)


def test_unknown_layers_and_kinds_are_told_with_their_lines() -> None:
    pattern = block(
        both(), line("sketch", 0j, 5 + 5j), point(55, 1 + 1j), line(84, 0j, 1 + 0j), line(5, 0j, 10 + 0j)
    )
    done = pattern.read()
    lines = pattern.text().splitlines()
    unknown = [finding for finding in done.findings if finding.rule.id == "dxf/unknown-part"]
    assert {finding.values["what"] for finding in unknown} == {"LINE on layer sketch", "POINT on layer 55"}
    number = int(str(unknown[0].values["things"][0]).removeprefix("line "))  # type: ignore[index]
    assert "sketch" in lines[number - 1 : number + 4]
    left = [finding.values["what"] for finding in done.findings if finding.rule.id == "dxf/left-out"]
    assert left == ["layer 84", "layer 5"]


def test_half_a_piece_lies_on_its_mirror_line() -> None:
    mirror = line(6, -10j, 310j)
    cut = rectangle(-10j, 210 + 310j)
    done = block(polyline(1, cut), polyline(14, SEWN), points(2, [*cut, *SEWN]), mirror).read()
    pattern = seen(done).pattern
    piece = pattern.pieces["front"]
    (fold,) = [name for name, edge in piece.edges.items() if edge is not None and edge.fold]
    nest = Nest(pattern)
    line_ = nest.pieces["front"].lines[fold]
    assert np.abs(nest.cubics_of(line_, 0).real).max() < 1e-9
    # Facts A20: the fold is no edge of what is cut, and the whole has twice the area.
    assert all(not np.all(np.abs(stroke.cubics.real) < 1e-6) for stroke in strokes(done, "cut"))
    assert piece.allowance == 10.0
    alone = seen(block(polyline(1, cut), mirror).read()).pattern.pieces["front"]
    assert sum(edge is not None and edge.fold for edge in alone.edges.values()) == 1


def test_lines_that_are_open_at_the_mirror_line_are_put_together_from_their_middle() -> None:
    sides = [line(1, 200 + 0j, 200 + 300j), line(1, 0j, 200 + 0j), line(1, 300j, 200 + 300j)]
    piece = seen(block(*sides, line(6, 0j, 300j)).read()).pattern.pieces["front"]
    assert sum(edge is not None and edge.fold for edge in piece.edges.values()) == 1
    assert len(piece.edges) + 3 == 4


def test_an_outline_open_at_its_mirror_line_is_closed_there() -> None:
    done = block(polyline(1, [0j, 200 + 0j, 200 + 300j, 300j], closed=False), line(6, 0j, 300j)).read()
    piece = seen(done).pattern.pieces["front"]
    assert sum(edge is not None and edge.fold for edge in piece.edges.values()) == 1
    assert "dxf/boundary-open" not in told(done)


def test_a_mirror_line_across_the_piece_mirrors_nothing() -> None:
    done = block(both(), line(6, 100 + 0j, 100 + 300j)).read()
    piece = seen(done).pattern.pieces["front"]
    assert not any(edge is not None and edge.fold for edge in piece.edges.values())
    assert "dxf/mirror-line" in told(done)
    assert "mirror_line" in piece.inner


def test_texts_in_their_spellings_any_case_with_or_without_a_blank() -> None:
    texts = (
        text("Piece name:front PANEL") + text("quantity:1, 1") + text("MATERIAL : Ripstop") + text("size:12")
    )
    done = Pattern(
        {"X": texts + polyline(1, CUT)}, style=("style name:Tern", "base size: 12", "units:metric")
    ).read()
    piece = seen(done).pattern.pieces["x"]
    assert piece.name == "front PANEL"
    assert piece.cut is not None
    (cut,) = piece.cut
    assert (cut.material, cut.count, cut.mirrored) == ("ripstop", 2, True)
    assert done.drawing is not None
    assert done.drawing.title == "Tern"


@pytest.mark.parametrize(
    ("quantity", "orders"),
    [
        ("1", [(1, False, None)]),
        ("2", [(2, True, None)]),  # an even number is a pair, as everywhere; told
        ("2, 0", [(2, False, None)]),
        ("0, 1", [(1, False, "mirrored")]),
        ("2, 1", [(2, True, None), (1, False, None)]),
    ],
)
def test_quantities(quantity: str, orders: list[tuple[int, bool, str | None]]) -> None:
    piece = seen(block(text(f"QUANTITY: {quantity}"), both()).read()).pattern.pieces["front"]
    assert [(in_size(cut.count, "12"), cut.mirrored, cut.hand) for cut in piece.cut or ()] == orders


def test_blocks_of_one_piece_name_are_its_sizes() -> None:
    blocks = {
        f"FRONT-{size}": text("PIECE NAME: Front")
        + text(f"SIZE: {size}")
        + polyline(1, rectangle(0j, complex(wide, 300)))
        for size, wide in (("10", 190), ("12", 200), ("14", 210))
    }
    done = Pattern(blocks).read()
    pattern = seen(done).pattern
    assert pattern.sizes is not None
    assert (pattern.sizes.names, pattern.sizes.base) == (("10", "12", "14"), "12")
    nest = Nest(pattern)
    assert nest.pieces["front"].lines["bottom"].length.tolist() == [190.0, 200.0, 210.0]


def test_sizes_are_told_from_block_names_where_no_text_says_them() -> None:
    blocks = {
        f"SIDE-PANEL-{size}": polyline(1, rectangle(0j, complex(wide, 90))) + text("QUANTITY: 1")
        for size, wide in (("S", 80), ("M", 85))
    }
    pattern = seen(Pattern(blocks, style=("SAMPLE SIZE: M", "UNITS: METRIC")).read()).pattern
    # S is named nowhere else as a size, but it stands where M does.
    assert set(pattern.pieces) == {"side_panel"}
    assert pattern.sizes is not None
    assert (pattern.sizes.names, pattern.sizes.base) == (("S", "M"), "M")


def test_sizes_that_begin_at_other_corners_are_laid_on_each_other() -> None:
    one, two = rectangle(0j, 200 + 300j), rectangle(1000 + 0j, 1210 + 310j)
    blocks = {
        f"FRONT-{size}": text("PIECE NAME: Front") + text(f"SIZE: {size}") + polyline(1, z)
        for size, z in (("12", one), ("14", [*two[2:], *two[:2]]))
    }
    nest = Nest(seen(Pattern(blocks).read()).pattern)
    assert nest.pieces["front"].lines["bottom"].length.tolist() == [200.0, 210.0]
    assert nest.pieces["front"].lines["left"].length.tolist() == [300.0, 310.0]


def test_where_blocks_are_laid_moves_the_layout_only() -> None:
    pattern = block(both())
    pattern.laid = {"FRONT-12": 500 + 40j}
    done = pattern.read()
    assert done.drawing is not None
    (group,) = done.drawing.groups
    assert group.shift == 500 + 40j
    assert strokes(done, "stitch")[0].cubics[0, 0] == 0j
    assert "dxf/insert-not-applied" in told(done)
    assert "dxf/insert-not-applied" not in told(block(both()).read())


def test_inches_become_mm() -> None:
    done = Pattern(
        {"F": polyline(1, rectangle(0j, 10 + 20j)) + text("PIECE NAME: F")}, style=("UNITS: ENGLISH",)
    ).read()
    nest = Nest(seen(done).pattern)
    assert nest.pieces["f"].lines["bottom"].length[0] == pytest.approx(254.0)
    assert nest.pattern.unit == "in"


def test_missing_units_are_asked_for_and_never_guessed() -> None:
    bare = Pattern({"F": polyline(1, rectangle(0j, 10 + 20j)) + text("PIECE NAME: Fly")}, style=())
    done = bare.read()
    assert done.drawing is not None
    assert done.drawing.scale is None
    assert np.abs(strokes(done, "cut")[0].cubics).max() <= np.hypot(10, 20)
    (asked,) = [finding for finding in done.findings if finding.rule.id == "dxf/units-not-said"]
    assert asked.values["piece"] == "Fly"
    for units, long in (("metric", 20.0), ("english", 508.0)):
        nest = Nest(seen(bare.read(units=units)).pattern)
        assert nest.pieces["f"].lines["left"].length[0] == pytest.approx(long)
    with pytest.raises(NotchworkError):
        bare.read(units="cubits")


@pytest.mark.parametrize(
    ("units", "tall", "doubted"),
    [("ENGLISH", 190.0, False), ("ENGLISH", 320.0, True), ("METRIC", 5600.0, False)],
)
def test_inches_that_make_a_piece_longer_than_any_are_doubted(units: str, tall: float, doubted: bool) -> None:
    file = Pattern(
        {"F": polyline(1, rectangle(0j, 100 + 1j * tall)) + text("PIECE NAME: Fly")},
        style=(f"UNITS: {units}",),
    )
    told = [finding for finding in file.read().findings if finding.rule.id == "dxf/units-doubted"]
    assert bool(told) is doubted
    if doubted:
        assert worded(told[0].text, told[0].values) == (
            "The file says that it counts in inches, and “Fly” is 8128.0 mm long by that; if it counts in millimetres, it is 320.0 mm."
        )
    # What is stated is not doubted.
    assert not any(f.rule.id == "dxf/units-doubted" for f in file.read(units="english").findings)


def test_more_vertices_than_any_pattern_has_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    file = Pattern({"F": polyline(1, rectangle(0j, 100 + 200j)) + text("PIECE NAME: Fly")})
    monkeypatch.setattr("notchwork_plugins.dxf.convention.read.MOST_VERTICES", 4)
    assert file.read().drawing is not None
    monkeypatch.setattr("notchwork_plugins.dxf.convention.read.MOST_VERTICES", 3)
    with pytest.raises(NotchworkError, match="4 vertices, and at most 3 are read"):
        file.read()


def test_notes_are_kept_as_they_are_written() -> None:
    piece = seen(
        block(both(), text("press flat", 1, 30 + 40j), text("Second sewing", 15, 60 + 200j)).read()
    ).pattern.pieces["front"]
    assert set((piece.note or "").split("\n")) == {"press flat", "Second sewing"}


def test_inner_lines_cut_outs_and_references_are_kept() -> None:
    done = block(
        both(),
        polyline(8, [20 + 100j, 180 + 100j], closed=False),
        polyline(11, rectangle(90 + 200j, 110 + 220j)),
        line(9, 20 + 50j, 180 + 50j),
        text("PLACEMENT: pocket", 15, 20 + 100j),
        text("CUT OUT: thumb", 15, 90 + 200j),
    ).read()
    piece = seen(done).pattern.pieces["front"]
    assert set(piece.inner) == {"pocket", "stripe"}
    assert set(piece.cutouts) == {"thumb"}
    assert piece.inner["pocket"] is not None
    assert piece.inner["pocket"].use == "placement"
    assert "dxf/reference-lines" in told(done)


def test_darts_by_their_names_with_what_they_are_pressed_to() -> None:
    done = block(
        both(),
        polyline(8, [80 + 300j, 100 + 200j, 120 + 300j], closed=False),
        text("DART: waist | to=side", 15, 100 + 200j),
        text("EDGE: top", 15, 100 + 300j),
        text("EDGE: side", 15, 200 + 150j),
        point(13, 100 + 200j),
    ).read()
    piece = seen(done).pattern.pieces["front"]
    dart = piece.darts["waist"]
    assert dart is not None
    assert (dart.edge, dart.apex, dart.press) == ("top", 100 + 200j, "side")
    assert not piece.marks


def test_a_v_on_an_edge_is_a_dart_without_any_name() -> None:
    done = block(both(), polyline(8, [80 + 300j, 100 + 200j, 120 + 300j], closed=False)).read()
    piece = seen(done).pattern.pieces["front"]
    assert [dart.apex for dart in piece.darts.values() if dart is not None] == [100 + 200j]


def test_a_name_that_stands_on_nothing_is_told_and_kept_as_a_note() -> None:
    done = block(both(), text("MARK: button", 15, 100 + 100j)).read()
    assert "dxf/name-unplaced" in told(done)
    assert "MARK: button" in (seen(done).pattern.pieces["front"].note or "")


def test_the_document_goes_along_and_a_missing_part_is_refused() -> None:
    document = random.Random(5).randbytes(40_000)
    parts = parts_of(document)
    assert len(parts) > 1
    whole = block(both())
    whole.loose = "".join(text(f"NOTE {k}", 15, more=extended(*part)) for k, part in enumerate(parts))
    done = whole.read()
    assert done.drawing is not None
    assert done.drawing.attached == document
    whole.loose = "".join(text(f"NOTE {k}", 15, more=extended(*part)) for k, part in enumerate(parts[1:]))
    done = whole.read()
    assert done.drawing is not None
    assert done.drawing.attached is None
    assert len(strokes(done, "stitch")) == 4
    assert "dxf/document-part-missing" in told(done)


def test_what_is_a_file_of_the_convention() -> None:
    def file(pattern: Pattern) -> bool:
        return is_convention(opened(Source("x.dxf", pattern.text().encode())))

    assert file(block(both()))
    assert not file(Pattern({"A": polyline("walls", CUT)}, style=("North",)))
    assert not file(Pattern({"A": polyline(1, CUT)}, style=("drawn by hand",)))
    assert not file(Pattern({"A": text("PIECE NAME: Front") + line(7, 0j, 1 + 0j)}))
    assert OURS in block(both()).text()


@pytest.mark.parametrize(
    ("says", "outline_is"),
    [
        ("the boundary is the sew line, no allowance is drawn", None),
        ("not known whether the boundary is the cut line or the sew line", "unknown"),
        ("cut with care", "cut_line"),
    ],
)
def test_an_annotation_may_say_what_the_boundary_is(says: str, outline_is: str | None) -> None:
    piece = seen(block(polyline(1, CUT), text(f"ANNOTATION: {says}")).read()).pattern.pieces["front"]
    assert piece.outline_is == outline_is
    assert piece.note == ("cut with care" if outline_is == "cut_line" else None)


def test_orders_that_differ_in_one_size_are_those_of_that_size() -> None:
    blocks = {
        f"FRONT-{size}": text("PIECE NAME: Front")
        + text(f"SIZE: {size}")
        + "".join(
            text(f"QUANTITY: {n}") + text(f"MATERIAL: {m}") for n, m in (("1", "twill"), (count, "voile"))
        )
        + polyline(1, rectangle(0j, 200 + 300j))
        for size, count in (("S", "1"), ("M", "2, 0"))
    }
    piece = seen(Pattern(blocks, style=("SAMPLE SIZE: S", "UNITS: METRIC")).read()).pattern.pieces["front"]
    assert [(cut.material, cut.count) for cut in piece.cut or ()] == [
        ("twill", 1),
        ("voile", {"S": 1, "M": 2}),
    ]


def test_a_dart_with_two_points() -> None:
    fish = [100 + 140j, 110 + 150j, 100 + 240j, 90 + 150j]
    for at in (fish[0], fish[2]):
        done = block(both(), polyline(8, fish), text("DART: fish", 15, at)).read()
        dart = seen(done).pattern.pieces["front"].darts["fish"]
        assert dart is not None
        assert dart.apexes is not None
        assert [point_.at for point_ in dart.apexes] == [at, 100 + 240j if at == fish[0] else 100 + 140j]
        assert dart.width == pytest.approx(20.0)


def test_a_pleat_by_two_lines_of_one_name() -> None:
    done = block(
        both(),
        line(8, 80 + 300j, 80 + 260j),
        line(8, 120 + 300j, 120 + 260j),
        *(text("PLEAT: tuck | to=side", 15, complex(x, 300)) for x in (80, 120)),
        text("EDGE: side", 15, 200 + 150j),
    ).read()
    pleat = seen(done).pattern.pieces["front"].pleats["tuck"]
    assert pleat is not None
    assert (pleat.edge, pleat.to) == ("top", "side")


def test_neighbours_of_one_name_are_one_edge_with_a_corner_in_it() -> None:
    step = [0j, 200 + 0j, 200 + 100j, 180 + 100j, 180 + 300j, 300j]
    done = block(
        polyline(1, step),
        points(2, step),
        *(text("EDGE: side", 15, z) for z in (200 + 50j, 190 + 100j, 180 + 200j)),
    ).read()
    nest = Nest(seen(done).pattern)
    assert nest.pieces["front"].lines["side"].length[0] == pytest.approx(320.0)
    assert len(nest.pieces["front"].edges) == 4


def test_a_boundary_of_very_many_lines_is_joined_in_bounded_time() -> None:
    ring = arc(0j, 1000.0, 0.0, 360.0, 20_001)
    ways = random.Random(3).sample(list(pairwise(ring)), 20_000)
    sides = "".join(line(1, *(way if k % 2 else way[::-1])) for k, way in enumerate(ways))
    begun = time.process_time()
    done = Pattern({"RUG": text("PIECE NAME: Rug") + sides}).read()
    # A second or so; to compare each with each would be 400 million comparisons.
    assert time.process_time() - begun < 20.0
    assert len(strokes(done, "cut")) == 1
