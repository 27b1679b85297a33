"""The demo as it ships: sound, readable, and handed out without harm to what is there."""

from __future__ import annotations

from pathlib import Path

import pytest
from patterns import nest_of
from storm_petrel import sound, verdict

from notchwork.demo import NAMES, example, write
from notchwork.document import read_pattern, write_pattern
from notchwork.findings import NotchworkError
from notchwork.sewing.cautions import CAUTIONS


def test_the_sound_one_raises_nothing_at_all() -> None:
    document = sound()
    assert "accepted" not in document
    found = verdict(document)
    assert found.sews_together
    assert [graded.rule.id for graded in found.findings] == []


@pytest.mark.parametrize("name", NAMES)
def test_it_reads_without_a_fault_and_is_laid_out_as_it_would_be_written(name: str) -> None:
    result = read_pattern(example(name), name)
    assert result.faults == ()
    assert result.pattern is not None
    assert write_pattern(result.pattern) == example(name)


def test_its_seams_are_equal_in_every_size() -> None:
    """Plain seams within 0.01 mm as graded; the waist within 0.05, where bodices by rules meet a sector drawn by size."""
    for ident, walk in nest_of(sound()).walks.items():
        for comparison in walk.others:
            for interval in comparison.intervals if comparison.is_plain else ():
                assert abs(interval.difference).max() < (0.05 if "waist" in ident else 0.01), ident


def test_its_waist_fits_the_body_as_stated() -> None:
    document = sound()
    girth = document["girths"]["waist"]
    (least, most) = girth["ease"]
    finished = girth["times"] * nest_of(document).walks[girth["seam"]].sides[0].length
    for size, length in zip(document["sizes"]["names"], finished, strict=True):
        assert least <= length - document["body"][girth["body"]][size] <= most


def test_it_is_written_into_a_folder_that_is_made(tmp_path: Path) -> None:
    paths = write(tmp_path / "new" / "demo")
    assert [path.name for path in paths] == list(NAMES)
    assert [path.read_bytes() for path in paths] == [example(name) for name in NAMES]
    assert write(tmp_path / "new" / "demo") == paths


def test_what_someone_changed_is_not_replaced(tmp_path: Path) -> None:
    _, faulty = write(tmp_path)
    faulty.write_text("changed")
    with pytest.raises(NotchworkError, match="something else by this name"):
        write(tmp_path)
    assert faulty.read_text() == "changed"


def test_a_file_where_the_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "demo").write_text("")
    with pytest.raises(NotchworkError, match="cannot be made"):
        write(tmp_path / "demo")


@pytest.mark.parametrize("word", ["trial", "test square", "iron", "flames", "stairs", "ords"])
def test_the_cautions_that_users_should_see(word: str) -> None:
    assert any(word in caution for caution in CAUTIONS)
