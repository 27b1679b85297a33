"""A file or bytes become a pattern, with everything that is to be said of how it is written."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from notchwork.document import MOST_BYTES, check_size
from notchwork.findings import Finding, NotchworkError, Severity, UnknownName
from notchwork.formats import Format, Source, for_reading, read_by
from notchwork.host import registry
from notchwork.model import Pattern
from notchwork.values import frozen

if TYPE_CHECKING:
    from notchwork.recognise import Options as Reading


class FaultyDocument(NotchworkError):
    """The document has faults, so that no pattern can be made of it. ``loaded`` holds them all."""

    def __init__(self, loaded: Loaded) -> None:
        count = sum(finding.rule.grade is Severity.ERROR for finding in loaded.findings)
        super().__init__(
            loaded.name,
            f"There {'is a fault' if count == 1 else f'are {count} faults'} in how the pattern is written.",
            f"{'It' if count == 1 else 'They'} must be mended first.",
        )
        self.loaded = loaded


@frozen
class Loaded:
    """What was read. ``pattern`` is None where ``findings`` hold a fault that must be mended first.

    ``line`` gives the line (from 1) on which a JSON pointer's value stands, where the format has lines.
    """

    name: str
    format: Format
    pattern: Pattern | None
    findings: tuple[Finding, ...]
    line: Callable[[str], int | None]

    def sound(self) -> Pattern:
        """The pattern. Raises FaultyDocument where there is none."""
        if self.pattern is None:
            raise FaultyDocument(self)
        return self.pattern


def load(
    what: str | os.PathLike[str] | bytes | BinaryIO,
    name: str | None = None,
    format_name: str | None = None,
    options: Mapping[str, str] | None = None,
    reading: Reading | None = None,
    others: bool = False,
) -> Loaded:
    """Read a pattern from a file, or from bytes or a stream that are called ``name`` in messages.

    The format is the one named, else it is told from the suffix, else from the content; ``options`` are the format's own,
    ``reading`` says how a drawing is to be read; ``others``: options that the format does not have are another's. Faults of
    the document are no exception: they are in ``findings``, and so is everything that was inferred of a drawing. Raises
    NotchworkError where there is nothing that can be read: no such file, too large, in no known format, no JSON at all;
    BrokenFormat where an added format breaks down.
    """
    if isinstance(what, str | os.PathLike):
        source = _file(Path(what), name or os.fspath(what))
    else:
        called = name or "the input"
        source = Source(called, what if isinstance(what, bytes) else _read(what, called))
        check_size(len(source.data), called)
    chosen = for_reading(source, registry().formats, format_name)
    done = read_by(chosen, source, checked_options(chosen, options or {}, others))
    if done.drawing is not None:
        # Finding pieces takes longer to import than most commands take to run.
        from notchwork.jobs.drawings import pattern_of

        pattern, told = pattern_of(done.drawing, source.name, reading)
        return Loaded(source.name, chosen, pattern, (*done.findings, *told), done.line)
    return Loaded(source.name, chosen, done.pattern, done.findings, done.line)


def checked_options(chosen: Format, options: Mapping[str, str], others: bool = False) -> Mapping[str, str]:
    """The format's options with their defaults filled in. Raises NotchworkError for one it does not have, unless it may be
    another's."""
    known = {option.name: option.default for option in chosen.options}
    for option in options:
        if not known and not others:
            raise NotchworkError(
                f"Option {option}", f"The format {chosen.name} has no options.", "Leave it out."
            )
        if option not in known and not others:
            raise UnknownName(f"option of {chosen.name}", option, known)
    defaults = {name: default for name, default in known.items() if default is not None}
    return defaults | {name: value for name, value in options.items() if name in known}


def _file(path: Path, name: str) -> Source:
    def beside(suffix: str) -> Source | None:
        other = path.with_suffix(suffix)
        return Source(str(other), _bytes(other, str(other))) if other.is_file() else None

    return Source(name, _bytes(path, name), beside)


def _bytes(path: Path, name: str) -> bytes:
    """The file's bytes, refused by its size before it is read, and never more of a pipe than is allowed."""
    try:
        with path.open("rb") as file:
            check_size(os.fstat(file.fileno()).st_size, name)
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise unreadable(name, error) from error
    check_size(len(data), name)
    return data


def _read(stream: BinaryIO, name: str) -> bytes:
    try:
        return stream.read(MOST_BYTES + 1)
    except OSError as error:
        raise unreadable(name, error) from error


def unreadable(name: str, error: OSError | ValueError) -> NotchworkError:
    """Why a file could not be opened, in plain words."""
    match error:
        case FileNotFoundError():
            return NotchworkError(name, "There is no such file.", "Check the name and the folder.")
        case IsADirectoryError():
            return NotchworkError(name, "This is a folder.", "Name the pattern files in it.")
        case PermissionError():
            return NotchworkError(name, "This file may not be read.", "Check its permissions.")
        case OSError(strerror=str(why)):
            return NotchworkError(name, f"It could not be read: {why}.")
        case _:
            return NotchworkError(name, "This cannot be the name of a file.")
