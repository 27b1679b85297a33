"""What every format promises, whoever wrote it."""

from __future__ import annotations

from pathlib import Path

import pytest

from notchwork import jobs
from notchwork.draw import Options
from notchwork.formats import EVERYTHING, Format, for_reading, for_writing
from notchwork.formats import written as written_by
from notchwork.formats.source import Source
from notchwork.host import registry
from notchwork.model import Pattern
from notchwork.pages import Paper

CASES = Path(__file__).parents[1] / "cases"
FORMATS = registry().formats
WHOLE = [known for known in FORMATS if known.read and known.write and known.carries == EVERYTHING]


def name(thing: Format | Path) -> str:
    return thing.name


@pytest.fixture(scope="module")
def pattern() -> Pattern:
    return jobs.load(CASES / "ferry_smock.pattern.json").sound()


@pytest.mark.parametrize("known", FORMATS, ids=name)
def test_a_format_is_known_by_its_name_and_suffixes(known: Format) -> None:
    assert known.title
    assert known.suffixes
    assert all(suffix.startswith(".") and suffix == suffix.lower() for suffix in known.suffixes)
    assert known.read is not None or known.writes
    assert known.write is None or known.write_drawing is None
    if known.writes:
        assert for_writing(f"a{known.suffixes[0]}", FORMATS) is known


@pytest.mark.parametrize("known", [known for known in FORMATS if known.writes], ids=name)
def test_what_is_written_is_the_same_every_time_and_is_recognised(known: Format, pattern: Pattern) -> None:
    written = written_by(pattern, known, {}, Options(), Paper())
    assert written == written_by(pattern, known, {}, Options(), Paper())
    assert known.suffixes[0] in written.files
    assert all(suffix.startswith(".") for suffix in written.files)
    if known.read is not None:
        data = written.files[known.suffixes[0]]
        assert known.sniff(data[:4096])
        assert for_reading(Source("standard input", data), FORMATS) is known


@pytest.mark.parametrize("known", WHOLE, ids=name)
@pytest.mark.parametrize("path", sorted(CASES.glob("*.pattern.json")), ids=name)
def test_what_carries_everything_gives_everything_back(known: Format, path: Path) -> None:
    assert known.read is not None
    assert known.write is not None
    before = jobs.load(path).sound()
    written = known.write(before, {}).files[known.suffixes[0]]
    after = known.read(Source("a", written), {}).pattern
    assert after == before
    assert known.write(after, {}).files[known.suffixes[0]] == written
