"""Rule files of the convention: grammar of facts A19 (from memory of ASTM D6673-10), our own numbers."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import pytest
from dxf_convention import (
    Pattern,
    line,
    point,
    points,
    polyline,
    rectangle,
    rule_file,
    seen,
    text,
    told,
)  # fmt: skip
from hypothesis import given, settings
from hypothesis import strategies as st
from patterns import nest_of

from notchwork.formats import Read
from notchwork.sewing import Nest
from notchwork_plugins.dxf.convention.rules.deltas import told_apart
from notchwork_plugins.dxf.convention.rules.table import read_table

SIZES = ("8", "10", "12", "14", "16")
CORNERS = [0j, 200 + 0j, 200 + 300j, 300j]
STILL = [(0.0, 0.0)] * 5
WIDER = [(-10.0, 0.0), (-5.0, 0.0), (0.0, 0.0), (5.0, 0.0), (10.0, 0.0)]
TALLER = [(-10.0, -4.0), (-5.0, -2.0), (0.0, 0.0), (5.0, 2.0), (10.0, 4.0)]
UP = [(0.0, -4.0), (0.0, -2.0), (0.0, 0.0), (0.0, 2.0), (0.0, 4.0)]
CUMULATIVE = {1: STILL, 2: WIDER, 3: TALLER, 4: UP}
STEPS = {
    1: STILL,
    2: [(-5.0, 0.0), (-5.0, 0.0), (0.0, 0.0), (5.0, 0.0), (5.0, 0.0)],
    3: [(-5.0, -2.0), (-5.0, -2.0), (0.0, 0.0), (5.0, 2.0), (5.0, 2.0)],
    4: [(0.0, -2.0), (0.0, -2.0), (0.0, 0.0), (0.0, 2.0), (0.0, 2.0)],
}


def references(at: Mapping[complex, int], layer: int = 2) -> str:
    return "".join(text(f"# {number}", layer, z) for z, number in at.items())


def front(*more: str, corners: list[complex] = CORNERS, scale: float = 1.0, units: str = "METRIC") -> Pattern:
    at = [z * scale for z in corners]
    body = text("PIECE NAME: Front") + text("SIZE: 12") + polyline(1, at) + points(2, at)
    rules = references({z: k for k, z in enumerate(at[:4], 1)})
    style = ("STYLE NAME: Tern", "SAMPLE SIZE: 12", f"UNITS: {units}", "Grading Rule Table: MISSES")
    return Pattern({"FRONT-12": body + rules + "".join(more)}, style=style)


def lengths(done: Read) -> dict[str, list[float]]:
    nest = Nest(seen(done).pattern)
    assert nest.sizes == SIZES
    lines = nest.pieces["front"].lines
    return {name: lines[name].length.tolist() for name in ("bottom", "right", "top", "left")}


def stated_outright() -> dict[str, list[float]]:
    """The same piece as a document of the open format, its corners graded by the same shifts."""
    rules = {
        f"r{number}": {size: list(pair) for size, pair in zip(SIZES, pairs, strict=True) if size != "12"}
        for number, pairs in CUMULATIVE.items()
    }
    names = ("bottom", "right", "top", "left")
    outline = [
        {"at": [z.real, z.imag], "edge": name, "grade": f"r{k}"}
        for k, (z, name) in enumerate(zip(CORNERS, names, strict=True), 1)
    ]
    document = {
        "notchwork": "1.0",
        "sizes": {"names": list(SIZES), "base": "12"},
        "grade_rules": rules,
        "pieces": {"front": {"outline": outline}},
    }
    lines = nest_of(document).pieces["front"].lines
    return {name: lines[name].length.tolist() for name in names}


def test_graded_edges_are_as_long_as_those_of_a_document() -> None:
    done = front().read(table=rule_file(CUMULATIVE))
    expected = stated_outright()
    for name, found in lengths(done).items():
        assert found == pytest.approx(expected[name], abs=1e-4)
    (finding,) = [finding for finding in done.findings if finding.rule.id == "dxf/deltas"]
    assert finding.values["what"] == "shifts from the sample size"


def test_steps_give_the_same_and_are_told_apart() -> None:
    done = front().read(table=rule_file(STEPS))
    expected = stated_outright()
    for name, found in lengths(done).items():
        assert found == pytest.approx(expected[name], abs=1e-4)
    (finding,) = [finding for finding in done.findings if finding.rule.id == "dxf/deltas"]
    assert finding.values["what"] == "steps from size to size"


def test_what_is_stated_goes_before_what_the_numbers_say() -> None:
    by_steps = lengths(front().read(table=rule_file(CUMULATIVE), deltas="stepwise"))
    assert by_steps["bottom"] == pytest.approx([185.0, 195.0, 200.0, 205.0, 215.0])
    as_shifts = lengths(front().read(table=rule_file(STEPS), deltas="cumulative"))
    assert as_shifts["bottom"] == pytest.approx([195.0, 195.0, 200.0, 205.0, 205.0])


def test_ours_are_always_from_the_sample_size() -> None:
    pattern = front()
    pattern.comments = ("Shifts in the rule file are from the sample size.",)
    assert lengths(pattern.read(table=rule_file(STEPS)))["bottom"] == pytest.approx(
        [195.0, 195.0, 200.0, 205.0, 205.0]
    )


def test_numbers_that_say_both_are_told() -> None:
    mixed = {1: STILL, 2: WIDER, 3: STEPS[2], 4: UP}
    done = front().read(table=rule_file({**mixed, 4: STEPS[4]}))
    assert "dxf/deltas-unclear" in told(done)


def test_inches_on_either_side() -> None:
    inches = {n: [(x / 25.4, y / 25.4) for x, y in pairs] for n, pairs in CUMULATIVE.items()}
    expected = stated_outright()
    english = front(scale=1 / 25.4, units="ENGLISH")
    for done in (
        english.read(table=rule_file(inches, units="ENGLISH")),
        english.read(table=rule_file(CUMULATIVE)),
        front().read(table=rule_file(inches, units="ENGLISH")),
    ):
        for name, found in lengths(done).items():
            assert found == pytest.approx(expected[name], abs=1e-3)


def test_points_between_two_with_rules_are_carried_by_turn_and_scale() -> None:
    # A quarter circle between the corners 3 and 4: the law of the format carries a whole similar figure.
    turn = np.radians(np.linspace(0.0, 180.0, 40))
    bow = [complex(z) for z in 100 + 300j + 100 * np.exp(1j * turn)]
    corners = [0j, 200 + 0j, *bow]
    body = text("PIECE NAME: Front") + polyline(1, corners) + points(2, [0j, 200 + 0j, bow[0], bow[-1]])
    rules = references({0j: 1, 200 + 0j: 2, bow[0]: 3, bow[-1]: 4})
    done = Pattern({"FRONT": body + rules}).read(table=rule_file(CUMULATIVE))
    nest = Nest(seen(done).pattern)
    top = max(
        nest.pieces["front"].lines.values(), key=lambda edge: edge.length[2] if edge.length[2] < 320 else 0
    )
    chord = [abs(200 + 300j + complex(*TALLER[k]) - (300j + complex(*UP[k]))) for k in range(5)]
    assert top.length.tolist() == pytest.approx([np.pi / 2 * c for c in chord], abs=0.02)


def test_notches_and_ends_of_lines_go_with_the_outline() -> None:
    done = front(
        point(4, 100 + 300j),
        point(13, 100 + 150j),
        line(7, 100 + 50j, 100 + 250j),
        text("# 3", 3, 100 + 250j),
        polyline(8, [100 + 0j, 100 + 80j], closed=False),
    ).read(table=rule_file(CUMULATIVE))
    nest = Nest(seen(done).pattern)
    piece = nest.pieces["front"]
    # Halfway along the top in the sample size, and in every other.
    assert nest.notches["front", "notch_1"].tolist() == pytest.approx(
        (piece.lines["top"].length / 2).tolist(), abs=1e-3
    )
    (mark,) = piece.marks.values()
    assert np.ptp(mark.real) == 0.0
    assert piece.grainline is not None
    assert (piece.grainline[:, 1] - piece.grainline[2, 1]).tolist() == [complex(*pair) for pair in TALLER]
    (inner,) = [edge for edge in piece.lines.values() if edge.kind == "inner"]
    feet = [nest.cubics_of(inner, size)[0, 0] for size in range(5)]
    assert [z.real for z in feet] == pytest.approx([95.0, 97.5, 100.0, 102.5, 105.0])


def test_references_without_a_rule_file_are_told_and_the_sample_size_read() -> None:
    done = front().read()
    assert "dxf/rule-file-missing" in told(done)
    assert Nest(seen(done).pattern).sizes == ("12",)
    assert "dxf/rule-file-missing" not in told(front().read(table=rule_file(CUMULATIVE)))
    # Whoever knows that there is none is not told.
    assert "dxf/rule-file-missing" not in told(front().read(rules="none"))


def test_a_rule_that_is_not_there_is_told_with_its_line() -> None:
    done = front(text("# 9", 2, 100 + 0j)).read(table=rule_file(CUMULATIVE))
    (finding,) = [finding for finding in done.findings if finding.rule.id == "dxf/rule-not-there"]
    assert finding.values["number"] == "9"
    assert lengths(done)["right"] == pytest.approx(stated_outright()["right"], abs=1e-4)


SOUND = rule_file(CUMULATIVE)


@pytest.mark.parametrize(
    ("before", "after", "says", "on"),
    [
        ("NUMBER OF SIZES: 5", "NUMBER OF SIZES: 4", "NUMBER OF SIZES", 6),
        ("SAMPLE SIZE: 12", "SAMPLE SIZE: 11", "SAMPLE SIZE", 8),
        ("SIZE LIST: 8 10 12 14 16", "SIZE LIST: 8 10 12 14 14", "twice", 7),
        ("UNITS: METRIC", "UNITS: CUBITS", "UNITS", 4),
        ("RULE: DELTA 2", "RULE: DELTA two", "no number of a rule", 11),
        ("RULE: DELTA 4", "RULE: DELTA 2", "stated twice", 15),
        ("-10.0, 0.0  -5.0", "-10.0, 0.0  -five", "no number that", 12),
        ("-10.0, 0.0  -5.0", "-10.0, nan  -5.0", "no number that", 12),
        ("-10.0, 0.0  -5.0, 0.0  0.0, 0.0", "-10.0, 0.0  -5.0, 0.0", "states {count} numbers", 11),
        ("-10.0, 0.0  -5.0, 0.0  0.0, 0.0", "-10.0, 0.0  -5.0, 0.0  1.0, 0.0", "moves the sample size", 11),
        ("AUTHOR: example", "just words", "KEY: value", 1),
    ],
)
def test_faults_of_a_table_are_told_with_their_line(before: str, after: str, says: str, on: int) -> None:
    assert before in SOUND
    broken = SOUND.replace(before, after, 1)
    table, faults = read_table(broken, "tern.rul", None)
    assert table is None
    assert any(says in fault.text and fault.values["line"] == str(on) for fault in faults)
    done = front().read(table=broken)
    assert "dxf/rule-file-fault" in told(done)
    assert Nest(seen(done).pattern).sizes == ("12",)


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=400) | st.lists(st.sampled_from(SOUND.splitlines()), max_size=30).map("\n".join))
def test_any_text_gives_a_table_or_faults(words: str) -> None:
    table, faults = read_table(words, "any.rul", 1.0)
    assert (table is None) == bool(faults)


def test_a_table_may_wrap_its_lines_and_be_of_any_case() -> None:
    wrapped = (
        SOUND.replace("  ", "\n").replace("RULE: DELTA", "Rule: Delta").replace("SIZE LIST", "Size List")
    )
    table, faults = read_table(wrapped, "tern.rul", None)
    assert not faults
    assert table is not None
    assert table == read_table(SOUND, "tern.rul", None)[0]
    assert table.rules[3][0] == -10 - 4j


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.floats(-20, 20), st.floats(-20, 20)), min_size=1, max_size=6),
    st.integers(2, 4),
    st.booleans(),
)
def test_regular_grades_are_told_apart(steps: list[tuple[float, float]], each: int, cumulative: bool) -> None:
    if not any(abs(complex(*step)) > 0.01 for step in steps):
        return
    sizes = tuple(str(k) for k in range(2 * each + 1))
    rules = {
        n: [
            tuple(v * (k - each if cumulative else np.sign(k - each)) for v in step)
            for k in range(2 * each + 1)
        ]
        for n, step in enumerate(steps)
    }
    table, faults = read_table(rule_file(rules, sizes, str(each)), "x.rul", None)  # type: ignore[arg-type]
    assert not faults
    assert table is not None
    assert told_apart(table) == ("cumulative" if cumulative else "stepwise")


def test_pieces_by_rules_and_by_blocks_in_one_file() -> None:
    pattern = front()
    for size, wide in zip(SIZES, (80, 90, 100, 110, 120), strict=True):
        pattern.blocks[f"YOKE-{size}"] = (
            text("PIECE NAME: Yoke") + text(f"SIZE: {size}") + polyline(1, rectangle(0j, complex(wide, 60)))
        )
    pattern.blocks["TAB"] = text("PIECE NAME: Tab") + polyline(1, rectangle(0j, 30 + 60j))
    nest = Nest(seen(pattern.read(table=rule_file(CUMULATIVE))).pattern)
    assert nest.sizes == SIZES
    assert nest.pieces["yoke"].lines["bottom"].length.tolist() == [80.0, 90.0, 100.0, 110.0, 120.0]
    assert nest.pieces["front"].lines["bottom"].length.tolist() == pytest.approx(
        [190.0, 195.0, 200.0, 205.0, 210.0]
    )
    assert nest.pieces["tab"].present.all()
    assert nest.pieces["tab"].lines["bottom"].length.tolist() == [30.0] * 5


def test_a_curved_line_inside_is_graded_with_the_same_nodes_in_every_size() -> None:
    bow = [complex(x, 100 + 30 * np.sin(np.pi * x / 200)) for x in np.linspace(0.0, 200.0, 60)]
    ends = {bow[0]: 1, bow[-1]: 2}
    done = front(polyline(8, bow, closed=False), references(ends, 3), text("LINE: waist", 15, bow[0])).read(
        table=rule_file(CUMULATIVE)
    )
    nest = Nest(seen(done).pattern)
    waist = nest.pieces["front"].lines["waist"]
    for k, size in enumerate(SIZES):
        cubics = nest.cubics_of(waist, k)
        assert (cubics[0, 0], cubics[-1, 3]) == pytest.approx((100j, 200 + 100j + WIDER[k][0])), size
    assert np.ptp(waist.length) > 15.0


def test_a_notch_that_leans_keeps_its_lean_where_the_edge_turns() -> None:
    sewn = [10 + 10j, 190 + 10j, 190 + 290j, 10 + 290j]
    slanting = {2: WIDER, 3: [(2 * x, y) for x, y in WIDER]}
    done = front(
        polyline(14, sewn),
        references({z: k for k, z in enumerate(sewn, 1)}),
        point(4, 200 + 150j, 4.0, angle=180.0),
    ).read(table=rule_file({**CUMULATIVE, **slanting}))
    assert done.drawing is not None
    for k, size in enumerate(SIZES):
        (tick,) = [
            s for s in done.drawing.groups[0].strokes if s.meaning == "notch" and s.facts["size"] == size
        ]
        low, high = 200 + WIDER[k][0], complex(200 + 2 * WIDER[k][0], 300)
        way = (high - low) * np.conj(tick.cubics[0, 3] - tick.cubics[0, 0])
        assert abs(np.degrees(np.angle(way))) == pytest.approx(90.0, abs=0.01)
