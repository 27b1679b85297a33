from __future__ import annotations

import json
from pathlib import Path

import pytest

from notchwork import jobs
from notchwork.draw import Options
from notchwork.findings import NotchworkError


def test_the_open_format_comes_back_as_it_was(cases: Path, tmp_path: Path) -> None:
    source = cases / "ferry_smock.pattern.json"
    done = jobs.convert(source, tmp_path / "smock.pattern.json")
    assert done.findings == ()
    assert list(done.files) == [tmp_path / "smock.pattern.json"]
    again = jobs.convert(tmp_path / "smock.pattern.json", tmp_path / "again.json")
    assert list(again.files) == [tmp_path / "again.json"]
    assert (tmp_path / "again.json").read_bytes() == (tmp_path / "smock.pattern.json").read_bytes()
    assert again.pattern == jobs.load(source).sound()


def test_a_pattern_can_be_converted_onto_itself(cases: Path, tmp_path: Path) -> None:
    path = tmp_path / "smock.json"
    path.write_bytes((cases / "ferry_smock.pattern.json").read_bytes())
    jobs.convert(path, path)
    assert jobs.load(path).sound() == jobs.load(cases / "ferry_smock.pattern.json").sound()


@pytest.mark.parametrize(("name", "second"), [("skirt.plt", "skirt.2.plt"), ("skirt.hpgl", "skirt.2.hpgl")])
def test_further_sheets_end_as_the_first_does(name: str, second: str, cases: Path, tmp_path: Path) -> None:
    done = jobs.convert(
        cases / "two_panel_skirt.pattern.json", tmp_path / name, options={"device": "pen-a4", "text": "none"}
    )
    assert list(done.files)[:2] == [tmp_path / name, tmp_path / second]
    assert {path.suffix for path in done.files} == {Path(name).suffix}


@pytest.mark.parametrize("name", ["bag.svg", "bag.cad.dxf", "bag.plt"])
def test_a_piece_without_a_shape_is_missed_aloud(name: str, tmp_path: Path) -> None:
    front = {
        "outline": [{"at": at, "edge": edge} for at, edge in (((0, 0), "a"), ((90, 0), "b"), ((0, 90), "c"))]
    }
    document = {"notchwork": "1.0", "pieces": {"front": front, "back": {"edges": {"a": {"length": 90}}}}}
    source = tmp_path / "bag.pattern.json"
    source.write_text(json.dumps(document), encoding="utf-8")
    (missed,) = (
        graded.finding
        for graded in jobs.convert(source, tmp_path / name).findings
        if graded.finding.rule.id == "losses/no-shape"
    )
    assert missed.values["pieces"] == ("Back",)
    chosen = jobs.convert(source, tmp_path / name, drawing=Options(pieces=("front",))).findings
    assert "losses/no-shape" not in {graded.finding.rule.id for graded in chosen}


def test_an_unknown_suffix_writes_nothing(cases: Path, tmp_path: Path) -> None:
    with pytest.raises(NotchworkError, match="no format that can be written"):
        jobs.convert(cases / "ferry_smock.pattern.json", tmp_path / "smock.xyz")
    assert list(tmp_path.iterdir()) == []
    done = jobs.convert(cases / "ferry_smock.pattern.json", tmp_path / "smock.xyz", to_format="open_json")
    assert list(done.files) == [tmp_path / "smock.xyz"]


def test_a_faulty_document_writes_nothing(tmp_path: Path) -> None:
    with pytest.raises(jobs.FaultyDocument):
        jobs.convert(b'{"notchwork": "1.0", "nonsense": 1}', tmp_path / "a.json")
    assert list(tmp_path.iterdir()) == []


def test_rules_schemas_and_lists_are_told_by_name() -> None:
    assert jobs.explain("losses/not-carried").is_check is False
    with pytest.raises(NotchworkError, match="Did you mean losses/not-carried"):
        jobs.explain("losses/not-carryed")
    assert '"$schema"' in jobs.schema("report")
    with pytest.raises(NotchworkError, match="no schema"):
        jobs.schema("../../etc/passwd")
    assert [known.name for known in jobs.formats()] == sorted(known.name for known in jobs.formats())
