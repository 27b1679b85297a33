"""Where in the text a JSON pointer leads, found only when it is asked for."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field

from notchwork.document.pointers import parts_of

_SPACE = re.compile(r"[ \t\n\r]*")
_skip_value = json.JSONDecoder().raw_decode


@dataclass(slots=True)
class _Container:
    """An object or list in the text: where its entries start, as far as it has been read (up to ``end``)."""

    end: int
    entries: dict[str, int] = field(default_factory=dict)
    done: bool = False


class Lines:
    """The lines of a valid JSON text by JSON pointer.

    Nothing is kept for values that were not asked for: values on the way are skipped at the speed of the parser, and the
    entries of every container that was entered are remembered.
    """

    def __init__(self, text: str) -> None:
        self._text = text
        self._containers: dict[int, _Container] = {}

    def locate(self, pointer: str) -> int | None:
        """The line (from 1) on which the value stands, or its nearest holder that exists; None for no pointer at all."""
        if pointer and not pointer.startswith("/"):
            return None
        return self._text.count("\n", 0, self.offset(pointer)) + 1

    def offset(self, pointer: str) -> int:
        """Where in the text the value (or its nearest holder) stands."""
        start = self._next(0)
        for part in parts_of(pointer):
            inner = self._entry(start, part)
            if inner is None:
                break
            start = inner
        return start

    def _next(self, index: int) -> int:
        match = _SPACE.match(self._text, index)
        return match.end() if match else index

    def _entry(self, start: int, name: str) -> int | None:
        opening = self._text[start : start + 1]
        if opening not in ("{", "["):
            return None
        container = self._containers.setdefault(start, _Container(start + 1))
        while name not in container.entries and not container.done:
            self._read_on(container, opening == "{")
        return container.entries.get(name)

    def _read_on(self, container: _Container, keyed: bool) -> None:
        index = self._next(container.end)
        if self._text[index] == ",":
            index = self._next(index + 1)
        if self._text[index] in "}]":
            container.done = True
            return
        name, place = str(len(container.entries)), index
        if keyed:
            name, index = _skip_value(self._text, index)
            index = self._next(self._next(index) + 1)
            if self._text[index] in "{[":
                place = index
        container.entries.setdefault(name, place)
        container.end = _skip_value(self._text, index)[1]
