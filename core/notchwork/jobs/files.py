"""Files written whole or not at all."""

from __future__ import annotations

import os
import shutil
import stat
from collections.abc import Mapping
from contextlib import ExitStack, suppress
from itertools import count
from pathlib import Path

from notchwork.findings import NotchworkError

_numbers = count()


class NotWritten(NotchworkError):
    """A file could not be written; everything is as it was before."""


def write_together(files: Mapping[Path, bytes]) -> None:
    """Write all files, or none: each to a temporary file beside its target, then all renamed together.

    A target that is a link stays one: what it leads to is written. A file that is replaced keeps its permissions. Raises
    NotWritten, with every target as it was.
    """
    with ExitStack() as leftovers, ExitStack() as undo:
        staged = [(path, *_staged(data, path, leftovers)) for path, data in files.items()]
        for path, temporary, target in staged:
            try:
                _kept(target, undo, leftovers)
                os.replace(temporary, target)
                _flush_folder(target.parent)
            except OSError as error:
                raise _not_written(path, error) from error
        undo.pop_all()


def _staged(data: bytes, path: Path, leftovers: ExitStack) -> tuple[Path, Path]:
    """The data in a temporary file beside the real target, and that target."""
    target = Path(os.path.realpath(path))
    try:
        mode = target.stat().st_mode if target.exists() else None
        if mode is not None and not stat.S_ISREG(mode):
            raise NotWritten(
                str(path), "This is a folder or a device, not a file.", "Name a file to write to."
            )
        temporary = _beside(target)
        leftovers.callback(_remove, temporary)
        with os.fdopen(os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666), "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if mode is not None:
            temporary.chmod(stat.S_IMODE(mode))
    except (OSError, ValueError) as error:
        raise _not_written(path, error) from error
    return temporary, target


def _kept(target: Path, undo: ExitStack, leftovers: ExitStack) -> None:
    """Arrange that the target comes back as it is now if anything later fails."""
    if not target.exists():
        undo.callback(_remove, target)
        return
    kept = _beside(target)
    leftovers.callback(_remove, kept)
    try:
        os.link(target, kept)
    except OSError:
        shutil.copy2(target, kept)
    undo.callback(os.replace, kept, target)


def _beside(target: Path) -> Path:
    return target.parent / f".notchwork-{os.getpid()}-{next(_numbers)}.part"


def _remove(path: Path) -> None:
    with suppress(OSError):
        path.unlink()


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
        case PermissionError():
            return NotWritten(
                str(path), "It may not be written here.", "Check the permissions of the folder."
            )
        case OSError(strerror=str(why)):
            return NotWritten(str(path), f"It could not be written: {why}.")
        case _:
            return NotWritten(str(path), "This cannot be the name of a file.")
