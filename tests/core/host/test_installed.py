"""Held against importlib.metadata of the standard library."""

from __future__ import annotations

import zipfile
from importlib.metadata import EntryPoint, distributions, entry_points
from pathlib import Path

import pytest

from notchwork.host.installed import GROUP, Point, installed

POINTS = """\
# [notchwork.plugins]
[console_scripts]
tool = stranger:main

[notchwork.plugins]
  lighthouse = stranger.plugin
# buoy = stranger.buoy
Gull=stranger.gull [extra]
[notchwork.plugins.more]
fog = stranger.fog
"""


def made(folder: Path, name: str, points: str | None) -> None:
    place = folder / name
    place.mkdir(parents=True)
    (place / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name.split('-')[0]}\nVersion: 1.0\n")
    if points is not None:
        (place / "entry_points.txt").write_text(points)


def by_the_library(*folders: Path) -> set[tuple[str, str]]:
    found = distributions(path=[str(folder) for folder in folders])
    return {(p.name, p.value) for dist in found for p in dist.entry_points if p.group == GROUP}


def test_what_is_installed_is_told_as_the_library_tells_it() -> None:
    assert {(p.name, p.value) for p in installed()} == {(p.name, p.value) for p in entry_points(group=GROUP)}


def test_only_the_group_of_each_file_counts(tmp_path: Path) -> None:
    made(tmp_path, "Storm_Petrel-1.0.dist-info", POINTS)
    made(tmp_path, "plain-1.0.dist-info", None)
    made(tmp_path, "old.egg-info", "[notchwork.plugins]\nold = old.plugin\n")
    (tmp_path / "file.egg-info").write_text("Name: file\n")
    found = installed([str(tmp_path), str(tmp_path / "not_there")])
    assert set(found) == {
        Point("lighthouse", "stranger.plugin", "storm-petrel"),
        Point("Gull", "stranger.gull [extra]", "storm-petrel"),
        Point("old", "old.plugin", "old"),
    }
    assert {(p.name, p.value) for p in found} == by_the_library(tmp_path)


def test_of_a_distribution_that_is_installed_twice_the_first_counts(tmp_path: Path) -> None:
    for k in "ab":
        made(tmp_path / k, f"petrel-{k}.dist-info", f"[notchwork.plugins]\np = {k}.plugin\n")
    assert installed([str(tmp_path / "a"), str(tmp_path / "b")]) == [Point("p", "a.plugin", "petrel")]


def test_distributions_in_archives_are_found(tmp_path: Path) -> None:
    made(tmp_path / "a", "petrel-2.dist-info", "[notchwork.plugins]\np = first.plugin\n")
    with zipfile.ZipFile(tmp_path / "all.egg", "w") as archive:
        archive.writestr("petrel-1.dist-info/METADATA", "Name: petrel\n")
        archive.writestr("petrel-1.dist-info/entry_points.txt", "[notchwork.plugins]\np = second.plugin\n")
        archive.writestr("skua-1.dist-info/METADATA", "Name: skua\n")
        archive.writestr("skua-1.dist-info/entry_points.txt", "[notchwork.plugins]\ns = skua.plugin\n")
    assert set(installed([str(tmp_path / "a"), str(tmp_path / "all.egg")])) == {
        Point("p", "first.plugin", "petrel"),
        Point("s", "skua.plugin", "skua"),
    }


@pytest.mark.parametrize("value", ["os.path", "os.path:join", "os.path : join [extra]", "os"])
def test_an_entry_point_loads_what_the_library_loads(value: str) -> None:
    assert Point("p", value, "x").load() is EntryPoint("p", value, GROUP).load()


def test_a_module_that_is_not_there_cannot_be_loaded() -> None:
    with pytest.raises(ImportError):
        Point("p", "stranger_not_there.plugin", "x").load()
