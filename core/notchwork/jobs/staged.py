"""Data on the disk before it has its name, so that whatever happens meanwhile touches no file."""

from __future__ import annotations

import os
import stat
from contextlib import ExitStack, suppress
from itertools import count
from pathlib import Path

_numbers = count()
_HANDLES = "/proc/self/fd"


class Staged:
    """Data beside a target that it is to replace, written and flushed.

    Where the system can (Linux), it lies in a file without a name, which is gone with the program, killed or not; elsewhere in a
    hidden one, which ``leftovers`` removes. A target that is replaced keeps its permissions. Raises OSError.
    """

    def __init__(self, data: bytes, target: Path, leftovers: ExitStack) -> None:
        self._data, self._target, self._leftovers = data, target, leftovers
        self._nameless = _nameless(target.parent)
        self._name: Path | None = None
        if self._nameless is None:
            self._name = self._hidden()
        else:
            leftovers.callback(os.close, self._nameless)
            _write(self._nameless, data)

    def replace(self) -> None:
        """Give it the target's name; the target is then the old file or the new one, never a part."""
        name = self._name or self._named()
        with suppress(FileNotFoundError):
            name.chmod(stat.S_IMODE(self._target.stat().st_mode))
        os.replace(name, self._target)

    def _named(self) -> Path:
        name = beside(self._target)
        try:
            # Only with a folder's handle does the library follow the link to the file.
            folder = os.open(_HANDLES, os.O_RDONLY)
            try:
                os.link(str(self._nameless), name, src_dir_fd=folder)
            finally:
                os.close(folder)
        except OSError:
            return self._hidden()
        self._leftovers.callback(removed, name)
        return name

    def _hidden(self) -> Path:
        name = beside(self._target)
        self._leftovers.callback(removed, name)
        handle = os.open(name, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
        try:
            _write(handle, self._data)
        finally:
            os.close(handle)
        return name


def beside(target: Path) -> Path:
    """A hidden name in the target's folder that nothing has."""
    return target.parent / f".notchwork-{os.getpid()}-{next(_numbers)}.part"


def removed(path: Path) -> None:
    """Take a file away if it is there."""
    with suppress(OSError):
        path.unlink()


def _nameless(folder: Path) -> int | None:
    """A file in the folder that has no name; None where the system or the file system knows none."""
    if not hasattr(os, "O_TMPFILE") or not os.path.isdir(_HANDLES):
        return None
    with suppress(OSError):
        return os.open(folder, os.O_TMPFILE | os.O_WRONLY, 0o666)
    return None


def _write(handle: int, data: bytes) -> None:
    rest = memoryview(data)
    while rest:
        rest = rest[os.write(handle, rest) :]
    os.fsync(handle)
