"""Hand the example out: its two documents as they ship with the package, and as files in a folder."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from notchwork import jobs
from notchwork.findings import NotchworkError

NAMES = ("sound.pattern.json", "faulty.pattern.json")
"""The files that ``write`` writes: a garment that sews together, and the same garment with typical faults."""


def example(name: str) -> bytes:
    """The document of that name (one of ``NAMES``), as UTF-8."""
    return files("notchwork.demo").joinpath(name).read_bytes()


def write(folder: Path) -> list[Path]:
    """Write both documents into a folder, which is made if it is not there; the paths, sound one first.

    A file that is there and holds something else is never replaced. Raises NotchworkError then, and where the folder
    cannot be made or written to, with nothing changed.
    """
    documents = {folder / name: example(name) for name in NAMES}
    for path, data in documents.items():
        _may_be_written(path, data)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as error:
        raise NotchworkError(
            str(folder),
            f"This folder cannot be made: {getattr(error, 'strerror', None) or error}.",
            "Name another folder.",
        ) from error
    jobs.write_together(documents)
    return list(documents)


def _may_be_written(path: Path, data: bytes) -> None:
    """Raises NotchworkError where the path holds anything but what would be written there."""
    try:
        changed = path.exists() and path.read_bytes() != data
    except (OSError, ValueError):
        changed = True
    if changed:
        raise NotchworkError(
            str(path),
            "There is something else by this name already, perhaps an example that was changed.",
            "Move it away, or name another folder.",
        )
