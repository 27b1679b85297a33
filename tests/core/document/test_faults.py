"""One fault, one finding: its rule, where it is, and what it suggests."""

from __future__ import annotations

import json
from typing import Any

import pytest

from notchwork.document import RULES, read_pattern
from notchwork.findings import Finding, Severity, worded

FRONT = "pieces/front"
SIDE = "seams/side/sides"

FAULTS: list[tuple[str, Any, str, str, str]] = [
    # way, value, rule, pointer, words of the message or hint
    (f"{FRONT}/allowence", 3, "unknown-key", "/pieces/front/allowence", 'Did you mean "allowance"?'),
    (f"{FRONT}/notchs", {}, "unknown-key", "/pieces/front/notchs", 'Did you mean "notches"?'),
    (f"{FRONT}/colour", "red", "unknown-key", "/pieces/front/colour", "begins with x-"),
    ("seems", {}, "unknown-key", "/seems", 'Did you mean "seams"?'),
    (f"{FRONT}/outline/2", {"at": [80, 620], "egde": "shoulder"}, "unknown-key", "/pieces/front/outline/2/egde", '"edge"'),
    (f"{FRONT}/outline/2", {"att": [80, 620], "edge": "shoulder"}, "unknown-key", "/pieces/front/outline/2/att", '"at"'),
    (f"{FRONT}/notches/pitch/edge", ..., "missing-key", "/pieces/front/notches/pitch", '"edge" is missing'),
    ("notchwork", ..., "missing-key", "", '"notchwork": "1.0"'),
    ("notchwork", 1.0, "wrong-type", "/notchwork", 'found 1.0'),
    (f"{FRONT}/allowance", "12 mm", "wrong-type", "/pieces/front/allowance", 'found "12 mm"'),
    (f"{FRONT}/allowance", {"S": 1, "M": "2", "L": 3}, "wrong-type", "/pieces/front/allowance/M", 'found "2"'),
    (f"{FRONT}/outline/2/at", "80, 620", "wrong-type", "/pieces/front/outline/2/at", "a point [x, y]"),
    (f"{FRONT}/notches/pitch/at", ["side", "120%"], "wrong-type", "/pieces/front/notches/pitch/at/1", "120%"),
    (f"{SIDE}/0/0", "front", "wrong-type", "/seams/side/sides/0/0", "piece.edge"),
    ("pieces", [], "wrong-type", "/pieces", "an object"),
    (f"{FRONT}/allowance", -1, "out-of-range", "/pieces/front/allowance", "found -1"),
    (f"{FRONT}/outline/2/at", [1, 2, 3], "out-of-range", "/pieces/front/outline/2/at", "a point [x, y]"),
    (f"{FRONT}/outline/2/at", [1, 2e6], "out-of-range", "/pieces/front/outline/2/at/1",
     "a distance, at most 1,000,000; found 2,000,000."),
    (f"{FRONT}/outline/2/at", [1, -2e6], "out-of-range", "/pieces/front/outline/2/at/1", "a distance, at least -1,000,000"),
    (f"{FRONT}/cut/0/count", 10**9, "out-of-range", "/pieces/front/cut/0/count",
     "a whole number from 0 to 10,000, or one for each size; found 1,000,000,000."),
    (f"{FRONT}/cut/0/count", 1.5, "wrong-type", "/pieces/front/cut/0/count", "a whole number of 0 or more"),
    ("seams/side/times", 20000, "out-of-range", "/seams/side/times", "from 1 to 10,000; found 20,000."),
    ("materials/linen/width", 2e6, "out-of-range", "/materials/linen/width", "a length above 0 and up to 1,000,000; found"),
    ("materials/linen/shrinkage", 120, "out-of-range", "/materials/linen/shrinkage", "a percentage below 100"),
    ("sizes/names", ["S", "M", "L", "M"], "out-of-range", "/sizes/names", '"M" stands in it more than once'),
    (f"{SIDE}/1", {"spans": ["back.side"], "join": {"kind": "gathered", "ratio": 0}}, "out-of-range",
     "/seams/side/sides/1/join/ratio", "a number above 0, or the least and the most of it; found 0"),
    (f"{SIDE}/1", {"spans": ["back.side"], "join": {"kind": "gathered", "ratio": [0, 2]}}, "out-of-range",
     "/seams/side/sides/1/join/ratio/0", "a number above 0"),
    (f"{SIDE}/0", ["front.side"] * 1001, "out-of-range", "/seams/side/sides/0",
     "there are 1,001 entries here; at most 1,000 are possible"),
    ("materials", {f"m{k}": {} for k in range(1001)} | {"linen": {}}, "out-of-range", "/materials", "1,002 entries"),
    ("pieces", {f"m{k}": {} for k in range(2001)}, "out-of-range", "/pieces", "2,001 entries"),
    (f"{FRONT}/darts", {"d": {"edge": "side", "feet": ["pitch"], "apex": [1, 2]}}, "out-of-range",
     "/pieces/front/darts/d/feet", 'For example ["left_foot", "right_foot"].'),
    (f"{FRONT}/outline", 3, "wrong-type", "/pieces/front/outline", '{"at": [80, 620], "in": [70, 580], "edge": "side"}].'),
    (f"{FRONT}/name", "", "wrong-type", "/pieces/front/name", "a name that can be seen"),
    ("materials/linen/name", " \u200b", "wrong-type", "/materials/linen/name", "called by its key"),
    (f"{FRONT}/notches/\u200b", {"edge": "side", "at": ["hem", 40]}, "bad-name", "/pieces/front/notches/\u200b", "a name"),
    ("seams/side/sides", [["front.side"]], "out-of-range", "/seams/side/sides", "two or more sides"),
    ("seams/armhole/half", "lft", "unknown-word", "/seams/armhole/half", 'Did you mean "left"?'),
    ("unit", "inch", "unknown-word", "/unit", 'Did you mean "in"?'),
    ("pieces/fr.ont", {"strip": {"width": 1, "length": 2}}, "bad-name", "/pieces/fr.ont", "without dots"),
    ("seams/x-mine", {"sides": [["front.neck"], ["back.neck"]]}, "bad-name", "/seams/x-mine", "x-"),
    (f"{FRONT}/strip", {"width": 1, "length": 2}, "contradiction", "/pieces/front/strip", "has an outline"),
    (f"{FRONT}/cut/0/plies", ["linen", "linen"], "contradiction", "/pieces/front/cut/0/material", "plies"),
    (f"{SIDE}/1", {"spans": ["back.side"], "join": {"kind": "plain", "amount": 3}}, "contradiction",
     "/seams/side/sides/1/join/amount", "as long as side 1"),
    (f"{SIDE}/1", {"spans": ["back.side"], "join": {"kind": "eased", "amount": 3, "percent": 4}}, "contradiction",
     "/seams/side/sides/1/join/percent", "left away"),
    (f"{FRONT}/edges/side", {"length": 400}, "contradiction", "/pieces/front/edges/side/length", "follows from the drawing"),
    (f"{FRONT}/edges/hem/finish", {"kind": "caught"}, "missing-key", "/pieces/front/edges/hem/finish", '"caught_in"'),
    ("openings/zip", {"kind": "zip"}, "missing-key", "/openings/zip", '"sections"'),
    ("notions/sleeve_elastic/type", "dress", "out-of-range", "/notions/sleeve_elastic/kind", "only a zip has a type"),
    (f"{SIDE}/1", {"spans": ["back.side"], "join": {"kind": "eased", "amount": [5, 1]}}, "badly-stated",
     "/seams/side/sides/1/join/amount", "[least, most]"),
    (f"{SIDE}/1", {"spans": ["back.side"], "join": {"kind": "eased", "amount": [2, {"S": 3, "M": 2, "L": 1}]}}, "badly-stated",
     "/seams/side/sides/1/join/amount", "begins with more than it ends with"),
    ("girths/hip", {"seam": "side", "ease": [30, 10]}, "badly-stated", "/girths/hip/ease", "[least, most]"),
    ("seams/armhole/sides/1/join/between", ["front_pitch", "front_pitch"], "badly-stated",
     "/seams/armhole/sides/1/join/between", "nothing lies between them"),
    ("seams/armhole/meet", [["shoulder", "sleeve.crown"], ["side", "sleeve.crown"]], "badly-stated",
     "/seams/armhole/meet/1/1", '"sleeve.crown" stands in two rows'),
    ("tolerances", {"seams/unequal-length": [2, 1, 3]}, "badly-stated", "/tolerances/seams~1unequal-length", "fall: 2, 1, 3"),
    ("seams/side/tolerances", {"seams/unequal-length": [1, 3, 2]}, "badly-stated",
     "/seams/side/tolerances/seams~1unequal-length", "fall: 1, 3, 2"),
    (f"{FRONT}/edges", {name: {"fold": True} for name in ("center", "neck", "shoulder", "armhole", "side", "hem")}, "contradiction",
     "/pieces/front", "every edge is a fold"),
    (f"{FRONT}/edges/side", {"fold": True}, "contradiction", "/seams/side/sides/0/0", '"front.side" is a fold'),
    # references
    (f"{FRONT}/like", "bak", "broken-reference", "/pieces/front/like", 'Did you mean "back"?'),
    (f"{FRONT}/like", "front", "circle", "/pieces/front/like", "front → front"),
    (f"{FRONT}/edges/hemm", {"allowance": 3}, "broken-reference", "/pieces/front/edges/hemm", 'Did you mean "hem"?'),
    (f"{FRONT}/edges/hem", None, "badly-stated", "/pieces/front/edges/hem", "like none"),
    (f"{FRONT}/grain", None, "badly-stated", "/pieces/front/grain", "like none"),
    (f"{FRONT}/notches/pitch/edge", "armhol", "broken-reference", "/pieces/front/notches/pitch/edge", '"armhole"'),
    (f"{FRONT}/notches/pitch/at", ["hem", 3], "broken-reference", "/pieces/front/notches/pitch/at", "no neighbour"),
    (f"{FRONT}/notches/pitch/at", ["sid", 3], "broken-reference", "/pieces/front/notches/pitch/at", '"side"'),
    (f"{FRONT}/notches/hem", {"edge": "side", "at": ["hem", 40]}, "name-twice", "/pieces/front/notches/hem", "an edge"),
    (f"{FRONT}/outline/5/name", "side", "name-twice", "/pieces/front/outline/5/name", "is taken"),
    (f"{FRONT}/cut/0/material", "linnen", "broken-reference", "/pieces/front/cut/0/material", '"linen"'),
    (f"{FRONT}/outline/3/grade", "tipp", "broken-reference", "/pieces/front/outline/3/grade", '"tip"'),
    (f"{FRONT}/edges/neck/finish/with", "neckbinding", "broken-reference", "/pieces/front/edges/neck/finish/with", "neck_b"),
    (f"{FRONT}/bias_to", "sid", "broken-reference", "/pieces/front/bias_to", '"side"'),
    (f"{FRONT}/inner", {"casing": {"parallel_to": "hm", "distance": 6}}, "broken-reference",
     "/pieces/front/inner/casing/parallel_to", '"hem"'),
    (f"{FRONT}/darts", {"d": {"edge": "hem", "feet": [["side", 90], ["sidee", 70]], "apex": [150, 99]}},
     "broken-reference", "/pieces/front/darts/d/feet/1", '"side"'),
    (f"{FRONT}/darts", {"d": {"edge": "hem", "feet": [["side", 90], ["side", 70]], "apex": [150, 99], "press": "centre"}},
     "broken-reference", "/pieces/front/darts/d/press", '"center"'),
    (f"{FRONT}/pleats", {"k": {"edge": "hem", "folds": [["side", 90], ["side", 90]]}}, "badly-stated",
     "/pieces/front/pleats/k/folds", "same place"),
    (f"{SIDE}/0/0", "front.sid", "broken-reference", "/seams/side/sides/0/0", 'Did you mean "side"?'),
    (f"{SIDE}/0/0", "frnt.side", "broken-reference", "/seams/side/sides/0/0", 'Did you mean "front"?'),
    (f"{SIDE}/0/0", {"edge": "front.side", "from": "hemm"}, "broken-reference", "/seams/side/sides/0/0/from", '"hem"'),
    (f"{SIDE}/0/0", {"edge": "front.side", "from": ["hem", 9]}, "ambiguous-place", "/seams/side/sides/0/0",
     '"armhole" or "hem"'),
    (f"{SIDE}/0/0", {"edge": "front.side", "to": "hem"}, "badly-stated", "/seams/side/sides/0/0", 'Add "from"'),
    (f"{SIDE}/0/0", {"edge": "front.side", "from": "hem", "to": "hem"}, "badly-stated", "/seams/side/sides/0/0", "same place"),
    (f"{SIDE}/0/0", {"edge": "front.side", "from": "hem", "way": "back"}, "badly-stated", "/seams/side/sides/0/0/way",
     "closed lines"),
    (f"{SIDE}/0", {"spans": ["front.side"], "join": {"kind": "eased", "amount": 3}}, "badly-stated",
     "/seams/side/sides/0/join", "finished length"),
    ("seams/armhole/meet", [["shoulder", None, None]], "badly-stated", "/seams/armhole/meet/0", "3 entries"),
    ("seams/armhole/meet", [["shouldr", "sleeve.crown"]], "broken-reference", "/seams/armhole/meet/0/0", '"shoulder"'),
    ("seams/armhole/meet", [["sleeve_seam", "sleeve.crown"]], "broken-reference", "/seams/armhole/meet/0/0", "does not end"),
    ("seams/armhole/meet", [["shoulder", "sleeve.crwn"]], "broken-reference", "/seams/armhole/meet/0/1", "sleeve.crown"),
    ("seams/armhole/meet", [["shoulder", "front.pitch"]], "broken-reference", "/seams/armhole/meet/0/1", "not on side 2"),
    ("seams/armhole/meet", [["shoulder#2", "sleeve.crown"]], "broken-reference", "/seams/armhole/meet/0/0", "so often"),
    ("seams/armhole/sides/1/join/between", ["front_pich", "back_pitch"], "broken-reference",
     "/seams/armhole/sides/1/join/between/0", '"front_pitch"'),
    ("seams/armhole/over", "sidee", "broken-reference", "/seams/armhole/over", '"side"'),
    ("seams/armhole/over", ["side", "armhole"], "badly-stated", "/seams/armhole/over/1", "itself"),
    ("notions/sleeve_elastic/in", "sleeve.hemm", "broken-reference", "/notions/sleeve_elastic/in", '"hem"'),
    ("notions/sleeve_elastic/in", "placket", "broken-reference", "/notions/sleeve_elastic/in", "no opening"),
    ("openings/gap", {"kind": "gap", "sections": [["front.hem"]], "closed_by": "sid"}, "broken-reference",
     "/openings/gap/closed_by", '"side"'),
    ("openings/gap", {"kind": "gap", "lips": [["front.hem"], ["back.hemm"]]}, "broken-reference",
     "/openings/gap/lips/1/0", '"hem"'),
    ("girths/hip", {"seam": "side", "side": 3}, "broken-reference", "/girths/hip/side", "2 sides"),
    ("girths/hip", {"seam": "side", "body": "hips"}, "broken-reference", "/girths/hip/body", "body measure"),
    ("order", [{"sew": ["side"]}, {"finish": ["front.hemm"]}], "broken-reference", "/order/1/finish/0", "front.hemm"),
    ("accepted", [{"check": "seams/unequal-length", "seam": "sid", "reason": "Meant."}], "broken-reference",
     "/accepted/0/seam", '"side"'),
    # sizes
    ("sizes/base", "XM", "broken-reference", "/sizes/base", "S, M and L"),
    (f"{FRONT}/allowance", {"S": 1, "M": 2}, "sizes-incomplete", "/pieces/front/allowance", "L"),
    (f"{FRONT}/allowance", {"S": 1, "M": 2, "L": 2, "XL": 4}, "broken-reference", "/pieces/front/allowance/XL", '"XL"'),
    ("grade_rules/tip", {"S": [1, 2]}, "sizes-incomplete", "/grade_rules/tip", "L"),
    ("grade_rules/tip/M", [1, 2], "badly-stated", "/grade_rules/tip/M", "base size"),
    (f"{SIDE}/0/0", {"edge": "front.side", "from": "hem", "to": ["hem", {"S": 90, "L": 99}]}, "sizes-incomplete",
     "/seams/side/sides/0/0/to/1", "M"),
    ("seams/armhole/sides/1/join/amount", [11, {"S": 17}], "sizes-incomplete", "/seams/armhole/sides/1/join/amount/1", "M"),
    ("accepted", [{"check": "a/b", "size": "XS", "reason": "Meant."}], "broken-reference", "/accepted/0/size", '"XS"'),
    # pieces
    ("pieces/pocket", {"name": "Pocket"}, "no-shape", "/pieces/pocket", "no shape"),
    ("pieces/pocket", {"edges": {"top": {"allowance": 3}, "low": {"length": 9}}}, "missing-key", "/pieces/pocket/edges/top",
     '"length"'),
    ("pieces/pocket", {"outline": [{"at": [0, 0]}, {"at": [9, 0]}, {"at": [0, 9]}]}, "no-shape", "/pieces/pocket/outline",
     "begins an edge"),
]  # fmt: skip


def said(finding: Finding) -> str:
    return f"{worded(finding.text, finding.values)} {worded(finding.hint, finding.values)}"


@pytest.mark.parametrize(("way", "value", "rule", "at", "words"), FAULTS)
def test_one_fault_is_one_finding(edited: Any, way: str, value: Any, rule: str, at: str, words: str) -> None:
    result = edited(way, value)
    assert [(f.rule.id, f.place.pointer) for f in result.faults] == [(f"document/{rule}", at)]
    (finding,) = result.faults
    assert words in said(finding)
    assert said(finding)[0].isupper() or said(finding)[0] == '"'
    assert "None" not in said(finding)
    assert result.pattern is None
    assert result.locate(at) >= 1


def test_every_rule_of_an_error_is_met_by_a_case() -> None:
    met = {rule for _, _, rule, _, _ in FAULTS} | {"outlines-unlike"}
    assert {rule.id for rule in RULES if rule.grade is Severity.ERROR} == {f"document/{rule}" for rule in met}


def test_every_rule_is_told_in_prose() -> None:
    assert len({rule.id for rule in RULES}) == len(RULES)
    for rule in RULES:
        assert rule.title
        assert len(rule.rationale) > 40
        assert rule.source


def test_faults_of_the_schema_and_of_references_are_told_together(ferry: dict[str, Any]) -> None:
    ferry["pieces"]["front"]["allowence"] = 3
    ferry["pieces"]["sleeve"]["notches"]["front_pitch"]["at"] = 3
    ferry["seams"]["side"]["sides"][0][0] = "front.sidee"
    ferry["notions"]["sleeve_elastic"]["width"] = "10"
    ferry["grade_rules"]["tip"]["XL"] = [3, 0]
    result = read_pattern(json.dumps(ferry, indent=2).encode(), "x")
    assert [f.place.pointer for f in result.faults] == [
        "/grade_rules/tip/XL",
        "/pieces/front/allowence",
        "/pieces/sleeve/notches/front_pitch/at",
        "/seams/side/sides/0/0",
        "/notions/sleeve_elastic/width",
    ]
    lines = [result.locate(f.place.pointer or "") for f in result.faults]
    assert lines == sorted(lines, key=lambda line: line or 0)


@pytest.mark.parametrize("key", ["outline", "edges", "notches", "cut", "name"])
def test_a_misspelt_key_takes_no_references_with_it(ferry: dict[str, Any], key: str) -> None:
    sleeve = ferry["pieces"]["sleeve"]
    sleeve[f"{key}s"] = sleeve.pop(key)
    if key == "outline":
        sleeve["outlin"] = sleeve.pop("outlines")
    result = read_pattern(json.dumps(ferry).encode(), "x")
    assert [f.rule.id for f in result.faults] == ["document/unknown-key"]


@pytest.mark.parametrize("section", ["pieces", "seams", "materials", "grade_rules", "notions"])
def test_a_misspelt_section_takes_nothing_with_it(ferry: dict[str, Any], section: str) -> None:
    ferry[f"{section}_"] = ferry.pop(section)
    result = read_pattern(json.dumps(ferry).encode(), "x")
    assert [(f.rule.id, f.place.pointer) for f in result.faults] == [("document/unknown-key", f"/{section}_")]


def test_a_newer_version_is_read_and_its_keys_are_kept(ferry: dict[str, Any]) -> None:
    ferry["notchwork"] = "1.7"
    ferry["pieces"]["front"]["colour"] = {"a": [1]}
    result = read_pattern(json.dumps(ferry).encode(), "x")
    assert [f.rule.id for f in result.faults] == ["document/newer-version", "document/key-of-a-newer-version"]
    assert result.pattern is not None
    assert result.pattern.pieces["front"].extra == {"colour": {"a": [1]}}


def test_a_fault_in_a_newer_version_is_one_still(ferry: dict[str, Any]) -> None:
    ferry["notchwork"] = "1.7"
    ferry["colour"] = 3
    ferry["pieces"]["front"]["allowance"] = "12"
    result = read_pattern(json.dumps(ferry).encode(), "x")
    assert result.pattern is None
    assert {f.rule.id for f in result.faults} == {
        "document/newer-version",
        "document/key-of-a-newer-version",
        "document/wrong-type",
    }


@pytest.mark.parametrize("licence", ["CC-BY-SA-4.0", "MIT OR CC0-1.0", "(MIT AND LicenseRef-mine)", None])
def test_known_licences_are_quiet(ferry: dict[str, Any], licence: str | None) -> None:
    ferry.pop("license")
    if licence is not None:
        ferry["license"] = licence
    assert read_pattern(json.dumps(ferry).encode(), "x").faults == ()


def test_an_unknown_licence_is_an_info_with_the_nearest(ferry: dict[str, Any]) -> None:
    ferry["license"] = "CC-BY-SA 4.0"
    result = read_pattern(json.dumps(ferry).encode(), "x")
    assert result.pattern is not None
    assert [f.rule.id for f in result.faults] == ["document/unknown-licence"]
    assert 'Did you mean "CC-BY-SA-4.0"?' in said(result.faults[0])


def test_braces_in_names_are_only_text(ferry: dict[str, Any]) -> None:
    ferry["pieces"]["{0}"] = {"strip": {"width": "{x}", "length": 3}, "{colour}": 1}
    result = read_pattern(json.dumps(ferry).encode(), "x")
    assert len(result.faults) == 2
    assert all("{" in said(finding) for finding in result.faults)


def test_names_that_are_digits_are_names(ferry: dict[str, Any]) -> None:
    ferry["pieces"]["007"] = {"strip": {"width": 3, "length": {"S": 1, "M": "x", "L": 2}}}
    ferry["sizes"] = {"names": ["38", "040", "42"], "base": "38"}
    ferry["grade_rules"] = {"tip": {"040": "x", "42": [1, 2]}}
    errors = [
        f.place.pointer for f in read_pattern(json.dumps(ferry).encode(), "x").faults if "type" in f.rule.id
    ]
    assert errors == ["/grade_rules/tip/040", "/pieces/007/strip/length/M"]
