"""One set of findings through every rendering of a check, and what holds of each whatever is in a file."""

from __future__ import annotations

import json
import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notchwork import __version__
from notchwork.checks import Verdict, judged
from notchwork.findings import Finding, Place, Row, Rule, Severity, Tolerance, safe
from notchwork.model import Pattern
from notchwork.report import Outcome, Paper, check_report, check_text, error_report, printed
from notchwork.report.annotations import workflow_annotations
from notchwork.report.junit import junit
from notchwork.report.line_text import line_text
from notchwork.report.paper import columns
from notchwork.report.sarif import sarif

Golden = Callable[[str, str], None]
Hostile = Callable[[str], Outcome]

NAMES = st.text(max_size=60) | st.sampled_from(["::error::x", "]]>", "\r\n::warning::", "%", "##[error]", ""])


def stored(text: str) -> str:
    """As standard output stores it: what cannot be written is a question mark."""
    return text.encode("utf-8", "replace").decode("utf-8")


def log_of(*outcomes: Outcome) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(sarif(outcomes, rules(outcomes)))
    return found


def rules(outcomes: Any) -> list[Rule]:
    """The rules of the checks that are spoken of, one of which finds nothing anywhere."""
    told = [g.rule for o in outcomes if o.verdict is not None for g in o.verdict.findings]
    return [
        *(rule for rule in told if rule.family in ("pieces", "seams")),
        Rule("seams/none", "t", "r", "s", Severity.INFO),
    ]


def test_text(outcomes: list[Outcome], golden: Golden) -> None:
    text = "\n".join(
        check_text(o.name, o.verdict, o.line, Paper(), verbose=True)
        for o in outcomes
        if o.verdict is not None
    )
    golden("report/all.txt", stored(text))


def test_json(outcomes: list[Outcome], golden: Golden) -> None:
    reports = [
        check_report(o.name, o.verdict, o.line)
        if o.verdict is not None
        else error_report("check", o.name, o.error)  # type: ignore[arg-type]
        for o in outcomes
    ]
    golden("report/all.jsonl", "".join(printed(report, one_line=True) + "\n" for report in reports))


@pytest.mark.parametrize("verbose", [False, True])
def test_lines(outcomes: list[Outcome], golden: Golden, verbose: bool) -> None:
    text = "".join(line_text(outcome, verbose) for outcome in outcomes)
    golden(f"report/all_lines{'_verbose' * verbose}.txt", stored(text))


@pytest.mark.parametrize("verbose", [False, True])
def test_workflow_annotations(outcomes: list[Outcome], golden: Golden, verbose: bool) -> None:
    text = "".join(workflow_annotations(outcome, verbose) for outcome in outcomes)
    golden(f"report/all_annotations{'_verbose' * verbose}.txt", stored(text))


def test_junit(outcomes: list[Outcome], golden: Golden) -> None:
    golden("report/all_junit.xml", junit(outcomes))


def test_sarif(outcomes: list[Outcome], golden: Golden) -> None:
    text = sarif(outcomes, rules(outcomes))
    golden("report/all.sarif", text.replace(f'ersion": "{__version__}"', 'ersion": "…"'))


@given(NAMES)
def test_a_finding_is_one_line_whatever_is_in_its_names(hostile: Hostile, name: str) -> None:
    [first, *rest] = line_text(hostile(name), verbose=True).splitlines()
    assert len(rest) == 2
    assert re.fullmatch(r"a\.json: error: .*\[seams/wrong-way\]", first)


def test_on_a_terminal_lines_are_broken_and_lose_nothing(outcomes: list[Outcome]) -> None:
    for outcome in outcomes:
        whole = line_text(outcome, verbose=True)
        for width in (40, 60, 80):
            broken = line_text(outcome, True, Paper(width))
            assert broken.split() == whole.split()
            assert all(columns(line) <= width or " " not in line.strip() for line in broken.splitlines())
            starts = [line for line in broken.splitlines() if not line.startswith("  ")]
            assert len(starts) == len(whole.splitlines())


def test_what_is_accepted_is_not_found_among_what_counts(outcomes: list[Outcome]) -> None:
    lines = "".join(line_text(outcome, verbose=True) for outcome in outcomes).splitlines()
    accepted = [line for line in lines if "Accepted on purpose" in line]
    assert len(accepted) == 2
    assert not [line for line in accepted if re.search(": (error|warning|info): ", line)]


def unescaped(text: str, *further: tuple[str, str]) -> str:
    """As the toolkit of GitHub's workflows undoes it (from memory of its source): the percent sign last."""
    for escaped, sign in (*further, ("%0D", "\r"), ("%0A", "\n"), ("%25", "%")):
        text = text.replace(escaped, sign)
    return text


@given(NAMES)
def test_a_finding_is_one_command_that_reads_back(hostile: Hostile, name: str) -> None:
    outcome = replace(hostile(name), name=f"{name}.json")
    lines = workflow_annotations(outcome, verbose=True).split("\n")
    assert lines.pop() == ""
    commands = [re.fullmatch(r"::(error|notice) ([^:]*)::(.*)", line, re.DOTALL) for line in lines]
    assert [found[1] if found else None for found in commands] == ["error", "notice", "notice"]
    for found in filter(None, commands):
        stated = dict(part.split("=", 1) for part in found[2].split(","))
        assert stated.keys() == {"file", "title"}
        assert unescaped(stated["file"], ("%2C", ","), ("%3A", ":")) == safe(f"{name}.json")
        message = unescaped(found[3])
        assert "[" in message.split("\n")[0]
        assert message.count("\n") <= 2


@given(NAMES)
def test_any_name_makes_sound_xml(hostile: Hostile, name: str) -> None:
    root = ET.fromstring(junit([replace(hostile(name), name=name)]))
    assert {key: root.get(key) for key in ("tests", "failures", "errors", "skipped")} == {
        "tests": "3",
        "failures": "1",
        "errors": "0",
        "skipped": "1",
    }


def test_a_sound_pattern_passes_every_check_that_ran(outcomes: list[Outcome]) -> None:
    [suite] = ET.fromstring(junit(outcomes[:1]))
    cases = suite.findall("testcase")
    assert [case.get("classname") for case in cases] == ["pieces.no-grain", "seams.unequal-length"]
    assert not [child for case in cases for child in case]


def test_a_check_that_could_not_judge_some_pieces_does_not_pass(outcomes: list[Outcome]) -> None:
    verdict = outcomes[1].verdict
    assert verdict is not None
    silent = replace(verdict, findings=())
    [suite] = ET.fromstring(junit([Outcome("a", silent)]))
    skipped = {case.get("classname"): case.find("skipped") for case in suite.findall("testcase")}
    assert skipped["seams.unequal-length"] is None
    assert skipped["pieces.no-grain"] is not None
    assert "no drawn outline" in skipped["pieces.no-grain"].get("message", "")


@pytest.mark.parametrize("fail_on", list(Severity))
def test_a_case_fails_as_the_command_does(outcomes: list[Outcome], fail_on: Severity) -> None:
    for outcome in outcomes:
        root = ET.fromstring(junit([outcome], fail_on))
        fails = bool(outcome.verdict and outcome.verdict.at_least(fail_on))
        assert (int(root.get("failures", "")) > 0) is fails
        assert (int(root.get("errors", "")) > 0) is (outcome.error is not None)


def results(log: dict[str, Any]) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = log["runs"][0]["results"]
    return found


def test_levels_kinds_and_indices_agree(outcomes: list[Outcome]) -> None:
    """3.27.10: what is not of the kind "fail" has no level."""
    log = log_of(*outcomes)
    [run] = log["runs"]
    ids = [rule["id"] for rule in run["tool"]["driver"]["rules"]]
    assert ids == sorted(set(ids))
    uris = [artifact["location"]["uri"] for artifact in run["artifacts"]]
    assert len(uris) == len(set(uris)) == len(outcomes)
    assert {(result["kind"], result["level"]) for result in results(log)} == {
        ("fail", "error"),
        ("fail", "warning"),
        ("fail", "note"),
        ("informational", "none"),
    }
    for result in results(log):
        assert ids[result["ruleIndex"]] == result["ruleId"]
        for location in result["locations"]:
            artifact = location["physicalLocation"]["artifactLocation"]
            assert uris[artifact["index"]] == artifact["uri"]


SMALL = Rule("seams/small", "t", "r", "s", Tolerance(0.5, 1.6, 3.2))


def small(text: str, off: float, seam: str = "side") -> Outcome:
    finding = Finding(SMALL, Place(seam=seam, piece="front"), text, "", {}, (Row(None, off, off, 0),))
    return Outcome("a.json", Verdict(Pattern(), tuple(judged([finding], Pattern()))))


def test_a_small_difference_is_a_note_and_keeps_its_figures_in_mm() -> None:
    [result] = results(log_of(small("It is {off} off.", 0.6)))
    assert (result["kind"], result["level"]) == ("fail", "note")
    assert result["properties"]["unit"] == "mm"
    assert result["properties"]["sizes"][0]["off"] == 0.6
    [seam] = [name for name in result["locations"][0]["logicalLocations"] if name["kind"] == "seam"]
    assert seam == {"name": "side", "fullyQualifiedName": "front/seam:side", "kind": "seam"}


def test_a_fingerprint_outlives_rewording_and_other_figures() -> None:
    def print_of(outcome: Outcome) -> str:
        [result] = results(log_of(outcome))
        return str(result["partialFingerprints"]["ruleAndPlace/v1"])

    assert print_of(small("It is {off} off.", 0.6)) == print_of(small("By {off} too long.", 3.0))
    assert print_of(small("It is {off} off.", 0.6)) != print_of(small("It is {off} off.", 0.6, "hem"))


def test_fingerprints_of_one_file_are_distinct(outcomes: list[Outcome]) -> None:
    for outcome in outcomes:
        prints = [result["partialFingerprints"]["ruleAndPlace/v1"] for result in results(log_of(outcome))]
        assert len(set(prints)) == len(prints)
    twice = small("It is off.", 2)
    assert twice.verdict is not None
    both = replace(twice, verdict=replace(twice.verdict, findings=twice.verdict.findings * 2))
    first, second = (result["partialFingerprints"] for result in results(log_of(both)))
    assert first != second


def test_what_is_accepted_is_suppressed_where_the_pattern_says_so(outcomes: list[Outcome]) -> None:
    suppressed = [result for result in results(log_of(outcomes[1])) if result["suppressions"]]
    [[suppression]] = [result["suppressions"] for result in suppressed]
    assert suppression["kind"] == "inSource"
    assert suppression["justification"] == "Cut from felt."
    [name] = suppression["location"]["logicalLocations"]
    assert name["fullyQualifiedName"] == "/accepted/0"


def test_full_names_of_other_ids_are_other_names(hostile: Hostile) -> None:
    """A piece called "a/seam:b" is not the seam b of the piece a."""
    [_, remark, grain] = results(log_of(hostile("b")))
    [name, pointer] = grain["locations"][0]["logicalLocations"]
    assert name["fullyQualifiedName"] == "a%2Fb%3Ac%25"
    assert pointer["fullyQualifiedName"] == "/pieces/a~1b:c%"
    assert "logicalLocations" not in remark["locations"][0]


def test_a_file_that_cannot_be_read_is_a_failed_run(outcomes: list[Outcome]) -> None:
    [run] = log_of(*outcomes[-2:])["runs"]
    [invocation] = run["invocations"]
    assert invocation["executionSuccessful"] is False
    gone, cut = invocation["toolExecutionNotifications"]
    assert gone["message"]["text"] == "There is no such file. Check the name."
    assert "region" not in gone["locations"][0]["physicalLocation"]
    assert cut["locations"][0]["physicalLocation"]["region"] == {"startLine": 3, "startColumn": 7}
    assert run["results"] == []
    [run] = log_of(outcomes[0])["runs"]
    assert run["invocations"][0]["executionSuccessful"] is True


@pytest.mark.parametrize(
    ("name", "uri"),
    [
        ("a b.json", "a%20b.json"),
        ("./x/é:1.json", "x/%C3%A9%3A1.json"),
        ("/tmp/x y.json", "file:///tmp/x%20y.json"),
        ("standard input", "standard%20input"),
        ("not\udce9unicode", "not%E9unicode"),
    ],
)
def test_files_are_named_by_uris(name: str, uri: str) -> None:
    """By RFC 3986: UTF-8 or the name's own bytes, percent-encoded; a colon in a first segment would read as a scheme."""
    [run] = log_of(Outcome(name, Verdict(Pattern(), ())))["runs"]
    assert run["artifacts"][0]["location"]["uri"] == uri


@given(NAMES)
def test_any_name_makes_sound_json(hostile: Hostile, name: str) -> None:
    log = log_of(
        replace(hostile(name), name=f"{name[:20]}x".replace("\0", "").encode(errors="replace").decode())
    )
    error, *_ = results(log)
    [seam, _] = error["locations"][0]["logicalLocations"]
    assert seam["name"] == name
