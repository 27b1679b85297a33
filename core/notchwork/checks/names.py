"""What the maker calls the things of a pattern."""

from __future__ import annotations

from notchwork.findings import Place, plain_name
from notchwork.model import Pattern, resolved_pieces
from notchwork.sewing.names import capital, display_names, seam_name


class Names:
    """The names of one pattern's things, and the unit its maker thinks in."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self.unit = pattern.unit
        self._pieces = display_names(resolved_pieces(pattern))

    def piece(self, ident: str) -> str:
        """The piece's own name, else its id in words."""
        return self._pieces.get(ident) or capital(plain_name(ident))

    def seam(self, ident: str) -> str:
        """The seam's name as its maker wrote it, else its id in words: "side" is "Side seam"."""
        return seam_name(self.pattern, ident)

    def of(self, place: Place) -> str:
        """What a place is called by the largest thing it names; nothing for a place that names none."""
        if place.seam is not None:
            return self.seam(place.seam)
        if place.piece is not None:
            return self.piece(place.piece)
        for kind, ident, named in (
            ("notion", place.notion, self.pattern.notions),
            ("opening", place.opening, self.pattern.openings),
            ("material", place.material, self.pattern.materials),
        ):
            if ident is not None:
                thing = named.get(ident)
                name = thing.name if thing is not None else None
                return name or f"{capital(plain_name(ident))} ({kind})"
        return ""
