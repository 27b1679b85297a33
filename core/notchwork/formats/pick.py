"""Which format a file is in, or is to be written in."""

from __future__ import annotations

from collections.abc import Sequence

from notchwork.findings import NotchworkError, UnknownName, listed
from notchwork.formats.format import Format
from notchwork.formats.source import Source

_SNIFFED = 4096


class UnknownFormat(NotchworkError):
    """No format fits a file that is to be read or written."""

    def __init__(self, name: str, known: Sequence[Format], verb: str) -> None:
        suffixes = [suffix for candidate in known for suffix in candidate.suffixes]
        names = [candidate.name for candidate in known]
        super().__init__(
            name,
            f"This is in no format that can be {verb}.",
            f"Known are {listed(suffixes) or 'none'}; or name the format: {listed(names, 'or')}.",
        )


def for_reading(source: Source, formats: Sequence[Format], name: str | None = None) -> Format:
    """The format named; else the one with the longest fitting suffix; else the first that recognises the content.

    Raises UnknownFormat, or UnknownName for a named one that is not there.
    """
    readable = [candidate for candidate in formats if candidate.read is not None]
    if name is not None:
        return _named(name, readable, "read")
    by_suffix = _by_suffix(source.name, readable)
    if by_suffix is not None:
        return by_suffix
    start = source.data[:_SNIFFED]
    for candidate in readable:
        if _recognises(candidate, start):
            return candidate
    raise UnknownFormat(source.name, readable, "read")


def for_writing(target: str, formats: Sequence[Format], name: str | None = None) -> Format:
    """The format named, else the one with the longest fitting suffix. Raises UnknownFormat."""
    writable = [candidate for candidate in formats if candidate.writes]
    if name is not None:
        return _named(name, writable, "write")
    found = _by_suffix(target, writable)
    if found is None:
        raise UnknownFormat(target, writable, "written")
    return found


def _recognises(candidate: Format, start: bytes) -> bool:
    """Whether the format takes the content for its own; one that breaks down over it does not."""
    try:
        return candidate.sniff(start)
    except Exception:
        return False


def suffix_of(name: str, candidate: Format) -> str | None:
    """The longest suffix of the format that a file's name ends with."""
    fitting = [suffix for suffix in candidate.suffixes if name.lower().endswith(suffix.lower())]
    return max(fitting, key=len, default=None)


def _by_suffix(name: str, formats: Sequence[Format]) -> Format | None:
    fitting = [
        (suffix, candidate) for candidate in formats if (suffix := suffix_of(name, candidate)) is not None
    ]
    return max(fitting, key=lambda pair: len(pair[0]), default=("", None))[1]


def _named(name: str, formats: Sequence[Format], verb: str) -> Format:
    for candidate in formats:
        if candidate.name == name:
            return candidate
    raise UnknownName(f"format to {verb}", name, (candidate.name for candidate in formats))
