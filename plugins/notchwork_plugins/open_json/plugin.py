"""The open format: one JSON document, which carries everything."""

from __future__ import annotations

from collections.abc import Mapping

from notchwork.document import RULES, read_pattern, write_pattern
from notchwork.formats import EVERYTHING, Format, Read, Source, Written
from notchwork.host import hookimpl
from notchwork.model import Pattern


def sniff(start: bytes) -> bool:
    return start.removeprefix(b"\xef\xbb\xbf").lstrip()[:1] in (b"{", b"[", b"")


def read(source: Source, options: Mapping[str, str]) -> Read:
    result = read_pattern(source.data, source.name)
    return Read(result.pattern, result.faults, result.locate, judged=True)


def write(pattern: Pattern, options: Mapping[str, str]) -> Written:
    return Written({".pattern.json": write_pattern(pattern)})


OPEN_JSON = Format(
    name="open_json",
    title="The open format",
    suffixes=(".pattern.json", ".json"),
    sniff=sniff,
    read=read,
    write=write,
    carries=EVERYTHING,
    rules=RULES,
)


@hookimpl
def notchwork_formats() -> tuple[Format, ...]:
    return (OPEN_JSON,)
