from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from notchwork.jobs.files import NotWritten, write_together


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_all_files_are_written_and_nothing_else_is_left(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"old")
    write_together({tmp_path / "a": b"new", tmp_path / "b": b"two"})
    assert contents(tmp_path) == {"a": b"new", "b": b"two"}


def test_a_failure_half_way_leaves_everything_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a").write_bytes(b"old")
    replace = os.replace

    def fails_on_c(source: Path, target: Path) -> None:
        if Path(target).name == "c":
            raise OSError(28, "No space left on device")
        replace(source, target)

    monkeypatch.setattr(os, "replace", fails_on_c)
    with pytest.raises(NotWritten, match="The disk is full"):
        write_together({tmp_path / "a": b"new", tmp_path / "b": b"two", tmp_path / "c": b"three"})
    assert contents(tmp_path) == {"a": b"old"}


def test_an_interruption_leaves_everything_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a").write_bytes(b"old")

    def interrupted(handle: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_together({tmp_path / "a": b"new"})
    assert contents(tmp_path) == {"a": b"old"}


def test_a_file_system_without_hard_links_will_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a").write_bytes(b"old")

    def no_links(source: Path, target: Path, **how: object) -> None:
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", no_links)
    write_together({tmp_path / "a": b"new"})
    assert contents(tmp_path) == {"a": b"new"}


def test_what_a_link_leads_to_is_written_and_the_link_stays(tmp_path: Path) -> None:
    real = tmp_path / "real"
    real.mkdir()
    (real / "a").write_bytes(b"old")
    link = tmp_path / "link"
    link.symlink_to(real / "a")
    write_together({link: b"new"})
    assert link.is_symlink()
    assert contents(real) == {"a": b"new"}


def test_permissions_are_kept_and_new_files_follow_the_mask(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"old")
    (tmp_path / "a").chmod(0o640)
    mask = os.umask(0o027)
    try:
        write_together({tmp_path / "a": b"new", tmp_path / "b": b"new"})
    finally:
        os.umask(mask)
    assert stat.S_IMODE((tmp_path / "a").stat().st_mode) == 0o640
    assert stat.S_IMODE((tmp_path / "b").stat().st_mode) == 0o640


@pytest.mark.parametrize("name", ["folder", "pipe", "missing/a"])
def test_what_is_no_file_is_refused_and_stays(tmp_path: Path, name: str) -> None:
    (tmp_path / "folder").mkdir()
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(NotWritten):
        write_together({tmp_path / "ok": b"new", tmp_path / name: b"new"})
    assert sorted(path.name for path in tmp_path.iterdir()) == ["folder", "pipe"]


def test_a_name_as_long_as_the_file_system_takes(tmp_path: Path) -> None:
    path = tmp_path / ("a" * 250)
    write_together({path: b"new"})
    assert path.read_bytes() == b"new"
