"""Which font draws which letters of some words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import NamedTuple

from notchwork_plugins.pdf.fonts.face import Face
from notchwork_plugins.pdf.fonts.scripts import is_unshaped, plain

REPLACEMENT = "\N{REPLACEMENT CHARACTER}"
"""What is drawn for a letter that no font has."""


class Run(NamedTuple):
    """Letters that one font draws."""

    face: Face
    letters: str


@cache
def _shipped(name: str) -> bytes:
    return files(__package__).joinpath(name).read_bytes()


@dataclass(eq=False)
class Faces:
    """The fonts of one file: two that come along, and one that was given for letters they lack.

    ``missing``: for words that could not be drawn whole, the letters that no font has; ``unshaped``: words whose letters are
    joined, moved or written from the right in ways that are not done here.
    """

    given: Face | None = None
    missing: dict[str, str] = field(default_factory=dict)
    unshaped: dict[str, None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.regular = Face("F0", _shipped("DejaVuSans.ttf"))
        self.bold = Face("F1", _shipped("DejaVuSans-Bold.ttf"))

    def __iter__(self) -> Iterator[Face]:
        yield from (face for face in (self.regular, self.bold, self.given) if face is not None and face.used)

    def runs(self, words: str, bold: bool) -> list[Run]:
        """The words in runs of one font each, fit to be drawn; control characters are gone, tabs and line ends are blanks."""
        clean = plain(words)
        chain = [self.bold, self.regular] if bold else [self.regular]
        if self.given is not None:
            chain.append(self.given)
        found: list[Run] = []
        lacking: dict[str, None] = {}
        for letter in clean:
            face = next((face for face in chain if face.has(letter)), None)
            if face is None:
                lacking[letter] = None
                face, letter = chain[0], REPLACEMENT
            if found and found[-1].face is face:
                found[-1] = Run(face, found[-1].letters + letter)
            else:
                found.append(Run(face, letter))
        if lacking:
            self.missing[clean] = "".join(lacking)
        if is_unshaped(clean):
            self.unshaped[clean] = None
        return found


def width(runs: list[Run]) -> float:
    """How wide runs are together, as a share of the type's size."""
    return sum(run.face.width(letter) for run in runs for letter in run.letters)
