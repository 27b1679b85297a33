from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from notchwork import jobs
from notchwork.checks import Verdict
from notchwork.findings import NotchworkError
from notchwork.model import Edge, Pattern, Piece, Seam, Side, Span
from notchwork.report import check_report, describe_report, error_report, printed, walk_report


@pytest.fixture(scope="module")
def validator() -> jsonschema.Draft202012Validator:
    schema = json.loads(jobs.schema("report"))
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(_closed(schema))


def _closed(schema: Any) -> Any:
    """The schema with every object closed, so that a key that is not described fails."""
    if isinstance(schema, dict):
        closed = {key: _closed(value) for key, value in schema.items()}
        if closed.get("type") == "object" and "properties" in closed:
            closed["additionalProperties"] = False
        return closed
    return [_closed(entry) for entry in schema] if isinstance(schema, list) else schema


def line(pointer: str) -> int | None:
    return 10 * pointer.count("/") + len(pointer)


def test_every_kind_of_finding(
    verdict: Verdict, golden: Callable[[str, str], None], validator: jsonschema.Draft202012Validator
) -> None:
    report = check_report("sample.json", verdict, line)
    validator.validate(report)
    golden("report/check.json", printed(report, one_line=False) + "\n")


def test_real_reports_are_as_the_schema_says(cases: Path, validator: jsonschema.Draft202012Validator) -> None:
    loaded = jobs.load(cases / "ferry_smock.pattern.json")
    nest = jobs.describe(loaded)
    for report in (
        check_report("smock", jobs.check(loaded), loaded.line),
        describe_report("smock", nest),
        walk_report("smock", nest, [jobs.walk(nest, "armhole")]),
        error_report("check", "smock", NotchworkError("smock", "It is not there.")),
        error_report(
            "describe", "smock", NotchworkError("smock", "It is not there."), jobs.faults(loaded), loaded.line
        ),
    ):
        validator.validate(json.loads(printed(report, one_line=True)))


def test_figures_of_the_example(cases: Path) -> None:
    """The lengths that the example's maker states: side 406 / 400 / 394, cap ease 14.99 / 14.79 / 14.11."""
    loaded = jobs.load(cases / "ferry_smock.pattern.json")
    seams = check_report("smock", jobs.check(loaded), loaded.line)["seams"]
    sides = {seam["size"]: seam for seam in seams if seam["id"] == "side"}
    assert [sides[size]["lengths"] for size in "SML"] == [[406, 406], [400, 400], [394, 394]]
    armhole = {seam["size"]: seam for seam in seams if seam["id"] == "armhole"}
    assert [round(armhole[size]["differences"][0], 2) for size in "SML"] == [14.99, 14.79, 14.11]
    assert armhole["M"]["joins"] == ["eased"]
    inner = [round(interval["difference"], 2) for interval in armhole["M"]["intervals"]]
    assert inner == [0, 5.43, 9.36, 0]
    assert [interval["join"] for interval in armhole["M"]["intervals"]] == [
        "plain",
        "eased",
        "eased",
        "plain",
    ]


def test_what_does_not_exist_is_null() -> None:
    tape = Pattern(
        version="1.0",
        pieces={"a": Piece(edges={"side": Edge(length=100)}), "b": Piece(edges={"side": Edge(length=90)})},
        seams={"side": Seam((Side((Span("a.side"),)), Side((Span("b.side"),))))},
    )
    [piece, _] = describe_report("tape", jobs.describe(tape))["pieces"]
    assert piece["size"] is None
    assert piece["area"] is None
    assert piece["unfolded_area"] is None
    assert piece["perimeter"] == 100
    assert piece["edges"] == [{"name": "side", "length": 100, "sewn": 100}]


def test_a_folded_piece_is_twice_as_large_opened_out(cases: Path) -> None:
    pieces = describe_report("smock", jobs.describe(jobs.load(cases / "ferry_smock.pattern.json")))["pieces"]
    by_id = {(piece["id"], piece["size"]): piece for piece in pieces}
    assert by_id["front", "M"]["unfolded_area"] == pytest.approx(2 * by_id["front", "M"]["area"])
    assert by_id["sleeve", "M"]["unfolded_area"] == by_id["sleeve", "M"]["area"]
    assert by_id["neck_binding", "M"]["area"] == pytest.approx(40 * 440)


def test_one_line_has_no_line_break(verdict: Verdict) -> None:
    assert "\n" not in printed(check_report("a\nb.json", verdict, line), one_line=True)


def test_a_seam_says_what_each_side_is_in_walking_order(cases: Path) -> None:
    nest = jobs.describe(jobs.load(cases / "ferry_smock.pattern.json"))
    for seam in describe_report("smock", nest)["seams"]:
        walk = nest.walks[seam["id"]]
        for side, length in zip(seam["sides"], seam["lengths"], strict=True):
            assert sum(stretch["length"] for stretch in side) == pytest.approx(length, abs=1e-5)
        assert [{stretch["piece"] for stretch in side} for side in seam["sides"]] == [
            set(side.pieces) for side in walk.sides
        ]
    [armhole] = [s for s in walk_report("s", nest, [nest.walks["armhole"]])["seams"] if s["size"] == "M"]
    assert [(s["piece"], s["line"], s["forward"]) for s in armhole["sides"][0]] == [
        ("front", "armhole", False),
        ("back", "armhole", True),
    ]
    assert [stretch["mirrored"] for side in armhole["sides"] for stretch in side] == [False] * 3
