"""What every part of the page speaks of, and where on the page each thing stands."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from notchwork.checks import Graded, Names, Verdict
from notchwork.findings import Place, Severity, plain_name
from notchwork.pictures import Picture
from notchwork.pictures.letters import letters
from notchwork.pictures.tokens import token
from notchwork.report.page.album import Album
from notchwork.report.page.markup import link, name, words
from notchwork.sewing.names import capital

Line = Callable[[str], int | None]


class Subject:
    """One verdict with its names, letters and pictures.

    ``line`` gives the line of the document on which a JSON pointer's value stands; ``lang`` is the language of the maker's
    own words, empty where it is not stated.
    """

    def __init__(self, file: str, verdict: Verdict, line: Line, album: Album) -> None:
        self.file = file
        self.verdict = verdict
        self.line = line
        self.album = album
        self.pattern = verdict.pattern
        self.names = Names(verdict.pattern)
        self.lang = verdict.pattern.language or ""
        self._letters: Mapping[str, str] = letters(verdict.pattern)

    def named(self, text: str) -> str:
        """A name as markup, in the maker's language."""
        return name(text, self.lang)

    def notion(self, ident: str) -> str:
        """A notion's own name as markup, else its id in words."""
        return self.named(self.pattern.notions[ident].name or capital(plain_name(ident)))

    def seam(self, ident: str) -> str:
        """A seam's letter and name as markup."""
        return f'<b class="letter">{words(self._letters.get(ident, ""))}</b> {self.named(self.names.seam(ident))}'

    def seam_link(self, ident: str) -> str:
        """The same, leading to its card."""
        return link(card_of(ident), self.seam(ident)) if ident in self.album.seams else self.seam(ident)

    def numbered(self) -> Iterator[tuple[str, Graded]]:
        """Every finding with the id it has on the page, worst first."""
        for number, graded in enumerate(self.verdict.findings, 1):
            yield f"finding-{number}", graded

    def concerning(self, seam: str) -> Iterator[tuple[str, Graded]]:
        """The findings of one seam."""
        return (
            (ident, graded)
            for ident, graded in self.numbered()
            if any(place.seam == seam for place in graded.places)
        )

    def severity_of(self, seam: str) -> Severity | None:
        """The worst that is said of a seam and was not accepted; None where nothing is above info."""
        counted = self.verdict.at_least(Severity.WARNING)
        return max(
            (graded.severity for graded in counted if any(place.seam == seam for place in graded.places)),
            default=None,
        )

    def pieces_of(self, graded: Graded) -> tuple[str, ...]:
        """The pieces that a finding concerns, each once."""
        stated: list[str] = [*graded.finding.pieces]
        places: list[Place] = [*graded.places, *(row.row.place for row in graded.rows if row.row.place)]
        stated += [place.piece for place in places if place.piece is not None]
        return tuple(dict.fromkeys(stated))


def card_of(seam: str) -> str:
    """Where a seam's card stands."""
    return f"card-{token(seam)}"


def corner_of(picture: Picture) -> str:
    """Where a corner's card stands."""
    return f"card-{picture.key}"


def cut_row(piece: str) -> str:
    """Where a piece stands in the cut list."""
    return f"cut-{token(piece)}"
