"""A page to look at: a pattern is checked, every picture is drawn, and all of it stands in one file."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from notchwork.checks import Verdict
from notchwork.findings import NotchworkError
from notchwork.jobs.check import check
from notchwork.jobs.files import write_together
from notchwork.jobs.load import Loaded
from notchwork.model import Pattern
from notchwork.values import frozen

if TYPE_CHECKING:
    from notchwork.pictures import Picture

_HEAD = 2000
"""Bytes of a page in which it says what it is."""


@frozen
class Report:
    """The verdict, the page (HTML in one file) and its pictures, in the page's order."""

    verdict: Verdict
    page: str
    pictures: tuple[Picture, ...]


def report(what: Loaded | Pattern, only: Iterable[str] = ()) -> Report:
    """Check a pattern as ``check`` does and draw what was found; of a document with faults the page tells those.

    Raises UnknownName for a check that is not there.
    """
    # No other command draws pictures.
    from notchwork.report.page import drawn, page

    verdict = check(what, only)
    album = drawn(verdict)
    name, line = (Path(what.name).name, what.line) if isinstance(what, Loaded) else ("pattern", _no_line)
    return Report(verdict, page(name, verdict, line, album), tuple(album))


def picture_files(report: Report) -> Mapping[str, bytes]:
    """The pictures as SVG files, each standing by itself, by names that differ in more than upper and lower case."""
    from notchwork.pictures import standalone

    found: dict[str, bytes] = {}
    taken: set[str] = set()
    for picture in report.pictures:
        name, number = picture.key, 2
        while name.lower() in taken:
            name, number = f"{picture.key}-{number}", number + 1
        taken.add(name.lower())
        found[f"{name}.svg"] = standalone(picture).encode()
    return found


def write_report(
    files: Mapping[Path, bytes], report: Report, pictures: str | os.PathLike[str] | None = None
) -> None:
    """Write files, and the report's pictures into a folder if one is named, which is made if it is not there; all or none.

    Raises NotchworkError.
    """
    drawn: dict[Path, bytes] = {}
    if pictures is not None:
        folder = Path(pictures)
        drawn = {folder / name: data for name, data in picture_files(report).items()}
        taken = next((path for path in (folder, *folder.parents) if path.is_file()), None)
        if taken is not None:
            raise NotchworkError(
                str(taken),
                "This is a file, and the pictures go into a folder.",
                "Name a folder, or a new name.",
            )
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except (OSError, ValueError) as error:
            why = getattr(error, "strerror", None) or error
            raise NotchworkError(
                str(folder), f"This folder cannot be made: {why}.", "Name another folder."
            ) from error
    write_together({**files, **drawn})


def is_report(path: Path) -> bool:
    """Whether a file is a page that was written here."""
    from notchwork.report.page import GENERATOR

    try:
        with path.open("rb") as file:
            return f'name="generator" content="{GENERATOR}"'.encode() in file.read(_HEAD)
    except OSError:
        return False


def _no_line(pointer: str) -> int | None:
    return None
