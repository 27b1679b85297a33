from __future__ import annotations

from pathlib import Path

import pytest

from notchwork import jobs
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
