"""A stranger's format that breaks down, or makes patterns that cannot be."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from notchwork import jobs
from notchwork.draw import Options
from notchwork.findings import NotchworkError, Severity
from notchwork.formats import BrokenFormat, Format, Read, Source, Written, for_reading, read_by, written
from notchwork.model import Edge, Node, Pattern, Piece
from notchwork.pages import Paper

SOURCE = Source("a.tape", b"")


def reading(read: Callable[[Source, Mapping[str, str]], Any]) -> Format:
    return Format("tape", "Tape", (".tape",), lambda start: True, read=read)


def giving(pattern: Any) -> Format:
    return reading(lambda source, options: Read(pattern))


def outlined(*corners: complex) -> Piece:
    return Piece(outline=tuple(Node(at=at, edge=f"e{k}") for k, at in enumerate(corners)))


def test_a_reader_that_breaks_down_is_named_and_the_cause_kept() -> None:
    def breaks(source: Source, options: Mapping[str, str]) -> Read:
        raise ZeroDivisionError("no length")

    with pytest.raises(BrokenFormat) as broken:
        read_by(reading(breaks), SOURCE, {})
    assert str(broken.value).startswith(
        "a.tape: The format tape broke down while reading it (ZeroDivisionError: no length)."
    )
    assert isinstance(broken.value.__cause__, ZeroDivisionError)


def test_what_a_reader_says_itself_is_passed_on() -> None:
    def refuses(source: Source, options: Mapping[str, str]) -> Read:
        raise NotchworkError(source.name, "It is torn.")

    with pytest.raises(NotchworkError, match="It is torn"):
        read_by(reading(refuses), SOURCE, {})


@pytest.mark.parametrize(
    "wrong",
    [Pattern(pieces={"a": outlined(0, complex("nan"), 1j)}), Pattern(pieces=5), "no pattern"],  # type: ignore[arg-type]
)
def test_what_is_no_pattern_at_all_is_the_formats_mistake(wrong: Any) -> None:
    with pytest.raises(NotchworkError):
        read_by(giving(wrong), SOURCE, {})
    with pytest.raises(BrokenFormat, match="it gave str"):
        read_by(reading(lambda source, options: "nothing"), SOURCE, {})


def test_a_sound_pattern_comes_through_and_need_not_state_the_version() -> None:
    pattern = Pattern(pieces={"front": Piece(edges={"side": Edge(length=400.0)})})
    assert read_by(giving(pattern), SOURCE, {}).pattern == pattern


def test_a_pattern_that_cannot_be_is_told_with_its_faults_before_it_goes_on() -> None:
    pattern = Pattern(pieces={"front": Piece(like="nobody")})
    done = read_by(giving(pattern), SOURCE, {})
    assert done.pattern is None
    assert [finding.rule.id for finding in done.findings] == [
        "formats/unsound-pattern",
        "document/broken-reference",
    ]
    assert done.findings[0].rule.grade is Severity.WARNING


def test_the_open_format_is_judged_once(cases: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from notchwork.formats import guarded

    monkeypatch.setattr(guarded, "write_pattern", None)
    assert jobs.load(cases / "two_panel_skirt.pattern.json").pattern is not None


@pytest.mark.parametrize("files", [{}, {".tape": "text"}])
def test_a_writer_that_gives_no_bytes_is_named(files: Any) -> None:
    known = Format(
        "tape", "Tape", (".tape",), lambda start: True, write=lambda pattern, options: Written(files)
    )
    with pytest.raises(BrokenFormat, match="The format tape broke down while writing it"):
        written(Pattern(), known, {}, Options(), Paper())


def test_a_format_that_breaks_down_over_a_start_does_not_recognise_it() -> None:
    def breaks(start: bytes) -> bool:
        raise IndexError

    odd = Format("odd", "Odd", (".odd",), breaks, read=lambda source, options: Read(None))
    fine = giving(None)
    assert for_reading(Source("standard input", b"x"), (odd, fine)) is fine
