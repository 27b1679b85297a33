from __future__ import annotations

import io
import os
from pathlib import Path

import pytest

from notchwork import jobs
from notchwork.document import MOST_BYTES
from notchwork.findings import NotchworkError, UnknownName


def test_a_path_bytes_and_a_stream_give_the_same_pattern(cases: Path) -> None:
    path = cases / "ferry_smock.pattern.json"
    data = path.read_bytes()
    pattern = jobs.load(path).sound()
    assert jobs.load(str(path)).sound() == pattern
    assert jobs.load(data).sound() == pattern
    assert jobs.load(io.BytesIO(data), "standard input").sound() == pattern


def test_a_missing_file_a_folder_and_a_name_that_is_none(tmp_path: Path) -> None:
    for what, why in (
        (tmp_path / "no.json", "no such file"),
        (tmp_path, "a folder"),
        ("a\0b.json", "name of a file"),
    ):
        with pytest.raises(NotchworkError, match=why):
            jobs.load(what)


def test_a_huge_file_is_refused_by_its_size_without_being_read(tmp_path: Path) -> None:
    path = tmp_path / "huge.json"
    with path.open("wb") as file:
        file.truncate(200 * 2**20)
    with pytest.raises(NotchworkError, match="200 MB"):
        jobs.load(path)


def test_no_more_of_an_endless_stream_is_read_than_is_allowed() -> None:
    class Endless(io.RawIOBase):
        asked = 0

        def read(self, size: int = -1) -> bytes:
            self.asked = size
            return b" " * size

    stream = Endless()
    with pytest.raises(NotchworkError, match="has more than 64 MB; at most 64 MB are read"):
        jobs.load(stream, "standard input")  # type: ignore[arg-type]
    assert stream.asked == MOST_BYTES + 1


def test_an_unknown_format_and_an_unknown_option_are_told(cases: Path) -> None:
    path = cases / "ferry_smock.pattern.json"
    with pytest.raises(UnknownName, match="open_json"):
        jobs.load(path, format_name="open_jsn")
    with pytest.raises(
        NotchworkError, match=r"Option scale: The format open_json has no options\. Leave it out\."
    ):
        jobs.load(path, options={"scale": "2"})
    with pytest.raises(UnknownName, match=r"There is no option of svg of this name"):
        jobs.load(b"<svg/>", "a.svg", options={"colour": "2"})


@pytest.mark.skipif(os.geteuid() == 0, reason="everything may be read by the superuser")
def test_a_file_that_may_not_be_read(tmp_path: Path) -> None:
    path = tmp_path / "secret.json"
    path.write_text("{}")
    path.chmod(0)
    with pytest.raises(NotchworkError, match="may not be read"):
        jobs.load(path)


def test_a_document_with_a_fault_has_findings_and_no_pattern() -> None:
    loaded = jobs.load(b'{"notchwork": "1.0", "pieces": {"front": {"allowence": 12}}}', "a.json")
    assert loaded.pattern is None
    assert loaded.findings
    verdict = jobs.check(loaded)
    assert verdict.checked is None
    assert not verdict.sews_together
    with pytest.raises(jobs.FaultyDocument, match="how the pattern is written"):
        loaded.sound()
