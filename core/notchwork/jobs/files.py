"""Files written whole or not at all."""

from __future__ import annotations

import errno
import os
import shutil
import stat
from collections.abc import Mapping
from contextlib import ExitStack, suppress
from pathlib import Path

from notchwork.findings import NotchworkError
from notchwork.jobs.staged import Staged, beside, removed

_FULL = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})


class NotWritten(NotchworkError):
    """A file could not be written; everything is as it was before."""


def write_together(files: Mapping[Path, bytes]) -> None:
    """Write all files, or none: all data is on the disk before the first file is replaced.

    A target that is a link stays one: what it leads to is written. A file that is replaced keeps its permissions. Raises
    NotWritten, with every target as it was.
    """
    with ExitStack() as leftovers, ExitStack() as undo:
        staged = [(path, *_staged(data, path, leftovers)) for path, data in files.items()]
        for number, (path, part, target) in enumerate(staged, 1):
            try:
                # After the last one nothing can fail.
                if number < len(staged):
                    _kept(target, undo, leftovers)
                part.replace()
                _flush_folder(target.parent)
            except OSError as error:
                raise _not_written(path, error) from error
        undo.pop_all()


def _staged(data: bytes, path: Path, leftovers: ExitStack) -> tuple[Staged, Path]:
    """The data beside the real target, and that target."""
    target = Path(os.path.realpath(path))
    try:
        if target.exists() and not stat.S_ISREG(target.stat().st_mode):
            raise NotWritten(
                str(path), "This is a folder or a device, not a file.", "Name a file to write to."
            )
        return Staged(data, target, leftovers), target
    except (OSError, ValueError) as error:
        raise _not_written(path, error) from error


def _kept(target: Path, undo: ExitStack, leftovers: ExitStack) -> None:
    """Arrange that the target comes back as it is now if anything later fails."""
    if not target.exists():
        undo.callback(removed, target)
        return
    kept = beside(target)
    leftovers.callback(removed, kept)
    try:
        os.link(target, kept)
    except OSError:
        shutil.copy2(target, kept)
    undo.callback(os.replace, kept, target)


def _flush_folder(folder: Path) -> None:
    """Make a rename last through a power cut; not every file system can."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _not_written(path: Path, error: OSError | ValueError) -> NotWritten:
    match error:
        case FileNotFoundError():
            return NotWritten(str(path), "There is no such folder.", "Make the folder first.")
        case NotADirectoryError():
            return NotWritten(
                str(path), "It would lie in something that is no folder.", "Name a file in a folder."
            )
        case PermissionError():
            return NotWritten(
                str(path),
                "It may not be written here.",
                "Name a file in a folder of yours, or have the permissions changed.",
            )
        case OSError(errno=code) if code in _FULL:
            return NotWritten(
                str(path),
                "The disk is full; whatever was there is as it was.",
                "Make room, or name another disk.",
            )
        case OSError(errno=errno.EROFS):
            return NotWritten(str(path), "This disk can only be read.", "Name a file on another disk.")
        case OSError(strerror=str(why)):
            return NotWritten(str(path), f"It could not be written: {why}.")
        case _:
            return NotWritten(str(path), "This cannot be the name of a file.")
