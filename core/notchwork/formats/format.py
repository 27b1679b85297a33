"""A file format as it is declared."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from notchwork.findings import Finding, Rule
from notchwork.formats.features import Feature
from notchwork.formats.source import Source
from notchwork.model import Pattern
from notchwork.values import frozen

if TYPE_CHECKING:
    from notchwork.drawing import Drawing
    from notchwork.pages import Paper


@frozen
class Option:
    """One setting of a format's own, given as ``-O name=value``."""

    name: str
    help: str
    default: str | None = None


def _no_line(pointer: str) -> int | None:
    return None


@frozen
class Read:
    """What came of reading: the pattern, or None where it could not be made out, and what is to be said of it.

    A format of drawings gives ``drawing`` instead, in which pieces are still to be found. ``line`` gives the 1-based line
    of a JSON pointer in the input, where the format has lines. ``judged``: the pattern was read by ``read_pattern``; any
    other is held against the open format's rules before it goes on.
    """

    pattern: Pattern | None
    findings: tuple[Finding, ...] = ()
    line: Callable[[str], int | None] = _no_line
    drawing: Drawing | None = None
    judged: bool = False


@frozen
class Written:
    """What came of writing: the files by suffix, and what is to be said of them beyond what the format never carries."""

    files: Mapping[str, bytes]
    findings: tuple[Finding, ...] = ()


Reader = Callable[[Source, Mapping[str, str]], Read]
Writer = Callable[[Pattern, Mapping[str, str]], Written]
DrawingWriter = Callable[["Drawing", Mapping[str, str]], Written]
PagesWriter = Callable[["Drawing", "Paper", Mapping[str, str]], Written]


@frozen
class Format:
    """A format: how it is known, read and written, and what of a pattern it can carry.

    ``suffixes`` begin with a dot and may have several (".pattern.json"); the first is the one written. ``sniff`` tells from
    the first 4 KB whether a file is of this format. ``read`` takes a source and the format's options; ``write`` takes a
    pattern and the options and gives the files to be written. A format of drawings has ``write_drawing`` instead:
    what is drawn is settled before. One that has pages has ``write_pages``, which takes the paper too. Each may be None. What a pattern uses and ``carries`` does not name is told as lost,
    unless the format ``attaches`` the document that a drawing carries along, which may depend on its options. ``rules`` are all rules of its own that a
    reader or writer may find.
    """

    name: str
    title: str
    suffixes: tuple[str, ...]
    sniff: Callable[[bytes], bool]
    read: Reader | None = None
    write: Writer | None = None
    write_drawing: DrawingWriter | None = None
    write_pages: PagesWriter | None = None
    carries: frozenset[Feature] = frozenset()
    attaches: bool | Callable[[Mapping[str, str]], bool] = False
    options: tuple[Option, ...] = ()
    rules: tuple[Rule, ...] = ()

    @property
    def writes(self) -> bool:
        """Whether a pattern can be written in it."""
        return self.write is not None or self.draws

    @property
    def draws(self) -> bool:
        """Whether what it writes is a drawing, with pages or without."""
        return self.write_drawing is not None or self.write_pages is not None
