"""Formats at work, guarded: what a stranger's reader or writer breaks is told with its name, and goes no further."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TypeVar

from notchwork.document import read_pattern, write_pattern
from notchwork.findings import Finding, NotchworkError, Place, Rule, Severity
from notchwork.formats.format import Format, Read, Written
from notchwork.formats.source import Source
from notchwork.model import Pattern

UNSOUND = Rule(
    id="formats/unsound-pattern",
    title="A format made a pattern that cannot be",
    rationale="What an added format made of the file was held against the rules of the open format, as every document is, "
    "and broke some of them. Either the file says something that cannot be, or the format's reader has a mistake.",
    source="The schema of the open format.",
    grade=Severity.WARNING,
)

_Result = TypeVar("_Result")


class BrokenFormat(NotchworkError):
    """A format's reader or writer broke down, or gave what it must not give; the cause is kept."""

    def __init__(self, name: str, known: Format, does: str, error: Exception) -> None:
        super().__init__(
            name,
            f"The format {known.name} broke down while {does} it ({type(error).__name__}: {error}).",
            "This is a mistake in the plugin of that format, perhaps met only by this file: please report it with the file.",
        )


def read_by(known: Format, source: Source, options: Mapping[str, str]) -> Read:
    """What the format reads in a source. A pattern of a reader that did not judge it is held against the open format's rules.

    Raises BrokenFormat, and whatever NotchworkError the reader raises.
    """
    assert known.read is not None
    read = known.read

    def done() -> Read:
        result = read(source, options)
        if not isinstance(result, Read):
            raise TypeError(f"it gave {type(result).__name__}")
        return result if result.judged or result.pattern is None else _judged(result, result.pattern, known)

    return _guarded(done, source.name, known, "reading")


def write_by(known: Format, name: str, write: Callable[[], Written]) -> Written:
    """What the format wrote of what is called ``name``. Raises BrokenFormat."""

    def done() -> Written:
        result = write()
        if not isinstance(result, Written):
            raise TypeError(f"it gave {type(result).__name__}")
        if not result.files or not all(isinstance(data, bytes) for data in result.files.values()):
            raise TypeError("it gave no files of bytes")
        return result

    return _guarded(done, name, known, "writing")


def _judged(done: Read, pattern: Pattern, known: Format) -> Read:
    """The same with the pattern as a document would bring it, or without one and with its faults."""
    result = read_pattern(write_pattern(pattern), known.name)
    findings = (*done.findings, *result.faults)
    if result.pattern is None:
        text = "What the format {format} made of this file is no sound pattern, for the reasons that follow."
        hint = "Mend the file; if it is right, report it to whoever made the format."
        findings = (Finding(UNSOUND, Place(), text, hint, {"format": known.name}), *findings)
    return replace(done, pattern=result.pattern, findings=findings)


def _guarded(do: Callable[[], _Result], name: str, known: Format, does: str) -> _Result:
    try:
        return do()
    except (NotchworkError, MemoryError):
        raise
    except Exception as error:
        raise BrokenFormat(name, known, does, error) from error
