"""What becomes of files of the convention when somebody edits them by hand, or draws in them what the convention does not know."""

from __future__ import annotations

import math

import pytest
from dxf_convention import (
    Pattern,
    extended,
    line,
    place,
    point,
    points,
    polyline,
    rectangle,
    rule_file,
    seen,
    tag,
    text,
    told,
)  # fmt: skip

from notchwork.formats import Source
from notchwork.recognise import Options
from notchwork.sewing import Nest
from notchwork_plugins.dxf import plugin

CUT = rectangle(-10 - 10j, 210 + 310j)
SEWN = rectangle(0j, 200 + 300j)
BOTH = polyline(1, CUT) + polyline(14, SEWN)


def lengths(pattern: Pattern, options: Options | None = None, **more: str) -> dict[str, list[float]]:
    nest = Nest(seen(pattern.read(**more), options).pattern)
    (piece,) = nest.pieces.values()
    return {name: [round(float(v), 3) for v in line.length] for name, line in piece.lines.items()}


def messages(pattern: Pattern, rule: str, **more: str) -> list[str]:
    return [finding.text for finding in pattern.read(**more).findings if finding.rule.id == rule]


def as_plugin(pattern: Pattern) -> set[str]:
    return {f.rule.id for f in plugin.read(Source("kittiwake.dxf", pattern.text().encode()), {}).findings}


@pytest.mark.parametrize("prefix", ["EDGE:", "edge:", "Edge :"])
def test_names_of_edges_are_read_in_any_case(prefix: str) -> None:
    body = BOTH + text(f"{prefix} hem", 15, 100 + 0j)
    done = Pattern({"FRONT-12": text("PIECE NAME: Front") + body}).read()
    assert "hem" in Nest(seen(done).pattern).pieces["front"].lines


def test_a_unit_that_is_neither_is_named() -> None:
    pattern = Pattern({"FRONT-12": BOTH}, style=("STYLE NAME: Kittiwake", "UNITS: CM"))
    (finding,) = [f for f in pattern.read().findings if f.rule.id == "dxf/units-not-said"]
    assert finding.values["said"] == "CM"
    assert "neither METRIC" in finding.text


def test_without_size_texts_sizes_are_the_ends_of_block_names_beside_the_sample_size() -> None:
    blocks = {
        f"FRONT-{size}": text("PIECE NAME: Front") + polyline(14, rectangle(0j, wide + 300j))
        for size, wide in (("10", 190), ("12", 200), ("14", 210))
    }
    pattern = Pattern(blocks)
    found = seen(pattern.read()).pattern
    assert found.sizes is not None
    assert found.sizes.names == ("10", "12", "14")
    assert list(found.pieces) == ["front"]
    assert "dxf/sizes-by-name" in told(pattern.read())


@pytest.mark.parametrize(("one", "other", "sample"), [("1", "2", "M"), ("L", "R", "L"), ("38", "left", "38")])
def test_ends_of_block_names_that_are_not_like_the_sample_size_are_no_sizes(
    one: str, other: str, sample: str
) -> None:
    style = (f"SAMPLE SIZE: {sample}", "UNITS: METRIC")
    pattern = Pattern({f"POCKET-{one}": BOTH, f"POCKET-{other}": BOTH}, style=style)
    assert len(seen(pattern.read()).pattern.pieces) == 2
    assert "dxf/sizes-by-name" not in told(pattern.read())


def test_a_file_whose_outlines_left_layer_1_says_why_it_is_read_as_a_plain_drawing() -> None:
    assert "dxf/nearly-convention" in as_plugin(
        Pattern({"FRONT-12": text("PIECE NAME: Front") + polyline("CUT", CUT)})
    )
    assert "dxf/nearly-convention" not in as_plugin(Pattern({"FRONT-12": text("PIECE NAME: Front") + BOTH}))
    assert "dxf/nearly-convention" not in as_plugin(
        Pattern({"A": polyline("CUT", CUT)}, style=("UNITS: METRIC",))
    )


def test_a_sew_line_outside_its_boundary_is_told_with_how_far() -> None:
    pattern = Pattern({"FRONT-12": polyline(1, SEWN) + polyline(14, CUT)})
    (finding,) = [f for f in pattern.read().findings if f.rule.id == "dxf/sew-line-outside"]
    assert finding.values["off"].mm == pytest.approx(math.sqrt(200.0))  # type: ignore[attr-defined]
    # Where a fold or a bound edge is, both run on one line.
    same = Pattern({"FRONT-12": polyline(1, SEWN) + polyline(14, SEWN)})
    assert "dxf/sew-line-outside" not in told(same.read())


def test_arcs_in_a_boundary_are_arcs() -> None:
    """A bulge of 1 is half a circle (the DXF reference, LWPOLYLINE): 100π mm on a chord of 200 mm."""
    head = tag(0, "POLYLINE") + tag(8, 14) + tag(66, 1) + tag(70, 1)
    body = "".join(
        tag(0, "VERTEX") + tag(8, 14) + place(z) + tag(42, bulge)
        for z, bulge in ((0j, 0), (200 + 0j, 1), (200 + 200j, 0), (200j, 0))
    )
    pattern = Pattern({"FRONT-12": head + body + tag(0, "SEQEND") + points(2, (0j, 200, 200 + 200j, 200j))})
    assert told(pattern.read()) <= {"dxf/curves-fitted"}
    assert max(value for (value,) in lengths(pattern).values()) == pytest.approx(100.0 * math.pi, abs=0.01)


def test_circles_and_arcs_on_a_layer_of_lines_are_read() -> None:
    circle = tag(0, "CIRCLE") + tag(8, 14) + place(0j) + tag(40, 100)
    arc = tag(0, "ARC") + tag(8, 8) + place(0j) + tag(40, 50) + tag(50, 0) + tag(51, 90)
    pattern = Pattern({"FRONT-12": circle + arc})
    assert "dxf/unknown-part" not in told(pattern.read())
    found = lengths(pattern)
    assert found.pop(next(iter(found))) == [pytest.approx(200.0 * math.pi, abs=0.01)]
    assert list(found.values()) == [[pytest.approx(25.0 * math.pi, abs=0.01)]]


def test_a_curve_that_draws_nothing_is_told_with_its_reason() -> None:
    spline = tag(0, "SPLINE") + tag(8, 8) + tag(70, 8) + tag(71, 3) + place(0j)
    (finding,) = [
        f for f in Pattern({"FRONT-12": BOTH + spline}).read().findings if f.rule.id == "dxf/unknown-part"
    ]
    assert "control points" in str(finding.values["why"])


def test_a_plane_that_faces_away_mirrors_what_lies_in_it() -> None:
    """Object coordinates: for the normal (0, 0, -1) x runs the other way (the DXF reference, arbitrary axis algorithm)."""
    plain = polyline(14, [z - 200 for z in SEWN])
    turned = plain.replace("70\n1\n", "70\n1\n210\n0\n220\n0\n230\n-1\n")
    done = Pattern({"FRONT-12": polyline(1, CUT) + turned.replace("0\nVERTEX", "0\nVERTEX")}).read()
    assert "dxf/sew-line-outside" not in told(done)
    assert "dxf/sew-line-outside" in told(Pattern({"FRONT-12": polyline(1, CUT) + plain}).read())


def test_words_that_say_fold_keep_a_cut_line_in_place_in_every_size() -> None:
    blocks = {
        f"FRONT-{size}": text("PIECE NAME: Front") + text(f"SIZE: {size}") + polyline(1, rectangle(left + 0j, 240 + 600j)) + fold
        for size, left, fold in (("12", 0, text("fold", 15, 6 + 300j, 5.0)), ("14", -40, ""))
    }  # fmt: skip
    found = lengths(Pattern(blocks), Options(outline="cut", allowance=10.0))
    assert found["bottom"] == found["top"] == [230.0, 270.0]
    without = lengths(
        Pattern({"FRONT-12": polyline(1, rectangle(0j, 240 + 600j))}), Options(outline="cut", allowance=10.0)
    )
    assert without["bottom"] == [220.0]


RULED = (
    BOTH + points(2, SEWN) + "".join(text(f"# {n}", 2, z) for n, z in zip((2, 1, 1, 2), SEWN, strict=True))
)


def test_a_rule_that_moves_one_corner_on_to_another_loses_that_size_and_says_so() -> None:
    rules = {1: [(-200.0, 0.0), (0.0, 0.0), (5.0, 0.0)], 2: [(0.0, 0.0)] * 3}
    table = rule_file(rules, ("10", "12", "14"))
    found = seen(Pattern({"FRONT-12": RULED}).read(table=table))
    assert "recognised/sizes-differ" in {finding.rule.id for finding in found.findings}
    assert found.pattern.pieces


def test_a_rule_file_of_another_drawing_is_told() -> None:
    rules = {1: [(-5.0, 0.0), (0.0, 0.0), (5.0, 0.0)], 2: [(0.0, 0.0)] * 3}
    table = rule_file(rules, ("10", "12", "14"))
    style = ("SAMPLE SIZE: 12", "GRADE RULE TABLE: Misses", "UNITS: METRIC")
    assert "dxf/rule-file-other" not in told(Pattern({"FRONT-12": RULED}, style=style).read(table=table))
    for other in (("SAMPLE SIZE: 14", *style[1:]), (style[0], "GRADE RULE TABLE: BOYS", style[2])):
        assert "dxf/rule-file-other" in told(Pattern({"FRONT-12": RULED}, style=other).read(table=table))


def test_a_wild_rule_file_is_told_in_few_words() -> None:
    pattern = Pattern({"FRONT-12": RULED})
    (empty,) = [f for f in pattern.read(table="").findings if f.rule.id == "dxf/rule-file-fault"]
    assert empty.values["line"] == "1"
    long = [
        f for f in pattern.read(table="UNITS: " + "x" * 10_000).findings if f.rule.id == "dxf/rule-file-fault"
    ]
    assert all(len(str(value)) < 100 for finding in long for value in finding.values.values())


def test_ids_and_names_that_steer_are_made_safe() -> None:
    body = (
        text("PIECE NAME: a\x1b[31m", more=extended("id=../x"))
        + BOTH
        + point(4, 500 + 500j)
        + line(7, 0j, 1j)
    )
    for finding in Pattern({"F\x1b-12": body}).read().findings:
        assert "\x1b" not in "".join(map(str, finding.values.values())) or finding.rule.id == "dxf/notch-off"
