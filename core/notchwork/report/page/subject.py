"""What every part of the page speaks of, and where on the page each thing stands."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from notchwork.checks import Graded, Names, Verdict
from notchwork.findings import Place, Severity, plain_name
from notchwork.pictures import Picture
from notchwork.pictures.corner import CornerPicture
from notchwork.pictures.tokens import token
from notchwork.report.page.album import Album
from notchwork.report.page.markup import link, name, words
from notchwork.report.told import speaks
from notchwork.sewing.letters import letters
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
        self._idents = {id(graded): ident for ident, graded in self.numbered()}
        self._by_seam: dict[str, list[Graded]] = {}
        for graded in verdict.findings:
            for seam in dict.fromkeys(place.seam for place in graded.places if place.seam is not None):
                self._by_seam.setdefault(seam, []).append(graded)
        self._by_piece: dict[str, list[Graded]] = {}
        for graded in verdict.findings:
            for piece in self.pieces_of(graded):
                self._by_piece.setdefault(piece, []).append(graded)
        self._corners: dict[int, list[CornerPicture]] = {}
        for corner in album.corners:
            for graded in corner.findings:
                self._corners.setdefault(id(graded), []).append(corner)

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

    def ident_of(self, graded: Graded) -> str:
        """The id that a finding of the verdict has on the page."""
        return self._idents[id(graded)]

    def concerning(self, seam: str) -> Sequence[Graded]:
        """The findings of one seam, worst first."""
        return self._by_seam.get(seam, ())

    def about(self, piece: str) -> Sequence[Graded]:
        """The findings that concern a piece, worst first."""
        return self._by_piece.get(piece, ())

    def severity_of(self, seam: str) -> Severity | None:
        """The worst that is said of a seam and was not accepted; None where nothing is above info."""
        return max((graded.severity for graded in self.concerning(seam) if speaks(graded)), default=None)

    def corners_of(self, graded: Graded) -> Sequence[CornerPicture]:
        """The corners at which a finding is seen."""
        return self._corners.get(id(graded), ())

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
