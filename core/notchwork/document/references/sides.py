"""Where a name stands on one side of a seam, as far as that can be told without measuring."""

from __future__ import annotations

from collections.abc import Iterable

from notchwork.document.references.known import Known
from notchwork.document.references.names import Line, Names, Token
from notchwork.document.references.spans import line_of
from notchwork.model import Place, Seam, Side, Span
from notchwork.values import frozen


@frozen
class Standing:
    """How often a name stands on a side for certain, and whether it may stand there otherwise."""

    times: int
    perhaps: bool = False


class Walked:
    """One side laid out as its ends and joints, each a set of places that lie there together, and the lines between."""

    def __init__(self, known: Known, side: Side, closed: bool) -> None:
        self._known = known
        self.spans = side.spans
        self.lines = [line_of(known, span) for span in side.spans]
        self.unsure = any(line is None for line in self.lines)
        self.stations: list[set[Token]] = [set()]
        for span, line in zip(side.spans, self.lines, strict=True):
            for _ in range(span.times):
                start, stop = _ends(line, span)
                self.stations[-1] |= start
                self.stations.append(stop)
                self.unsure |= line is not None and not (start and stop)
        if closed:
            self.stations[0] |= self.stations.pop()

    @property
    def pieces(self) -> list[str]:
        return list(dict.fromkeys(span.piece for span in self.spans))

    def place(self, piece: str, name: str) -> Standing:
        """Where a place of a piece stands: a notch, a named node, a neighbouring edge, a dart or a pleat."""
        tokens: set[Token] = set()
        for span, line in zip(self.spans, self.lines, strict=True):
            if line is not None and span.piece == piece:
                tokens |= _tokens(self._known.names[piece], line, name)
        return self._standing(tokens)

    def seam(self, seam: Seam) -> Standing:
        """Where a seam ends on this side."""
        tokens: set[Token] = set()
        perhaps = seam.closed
        for side in seam.sides:
            for span, at_start in ((side.spans[0], True), (side.spans[-1], False)):
                line = line_of(self._known, span)
                found = _ends(line, span)[0 if at_start else 1]
                tokens |= found
                perhaps |= not found and (line is None or span.piece in self.pieces)
        standing = self._standing(tokens)
        return Standing(standing.times, standing.perhaps or perhaps)

    def _standing(self, tokens: set[Token]) -> Standing:
        times = sum(not tokens.isdisjoint(station) for station in self.stations)
        perhaps = self.unsure
        at_stations = set().union(*self.stations)
        for span, line in zip(self.spans, self.lines, strict=True):
            inside = line is not None and any(
                token[:2] == (line.piece, line.name) and token not in at_stations for token in tokens
            )
            if inside and line is not None and _whole(line, span):
                times += span.times
            else:
                perhaps |= inside
        return Standing(times, perhaps)


def _whole(line: Line, span: Span) -> bool:
    return span.stop is None or (
        not line.closed and line.end_at(span.stop) is not None and _at_end(line, span.start)
    )


def _at_end(line: Line, place: Place | None) -> bool:
    return place is None or line.end_at(place) is not None


def _ends(line: Line | None, span: Span) -> tuple[set[Token], set[Token]]:
    """The places at which a span starts and stops; empty where only measuring can tell."""
    if line is None:
        return set(), set()
    if line.closed:
        start = line.token(span.start) if span.start is not None else line.end_token("start")
        stop = line.token(span.stop) if span.stop is not None else start
        return _one(start), _one(stop)
    if span.start is None:
        return {line.end_token("start")}, {line.end_token("stop")}
    if span.stop is not None:
        return _one(line.token(span.start)), _one(line.token(span.stop))
    match line.end_at(span.start):
        case "start":
            return {line.end_token("start")}, {line.end_token("stop")}
        case "stop":
            return {line.end_token("stop")}, {line.end_token("start")}
    return _one(line.token(span.start)), set()


def _one(token: Token | None) -> set[Token]:
    return {token} if token is not None else set()


def _tokens(names: Names, line: Line, name: str) -> set[Token]:
    """The places that a name means on a line."""
    if name == line.unclear:
        return {line.end_token("start"), line.end_token("stop")}
    if name in line.nodes or name in (line.before, line.after):
        return _one(line.token(Place(name)))
    if names.notches.get(name) == line.name or names.intakes.get(name) == line.name:
        return {(line.piece, line.name, name)}
    return set()


def called(names: Iterable[Names], lines: Iterable[Line | None]) -> list[str]:
    """Everything by which a place on these lines may be called."""
    by_piece = {each.piece: each for each in names}
    found: dict[str, None] = {}
    for line in lines:
        if line is not None and line.piece in by_piece:
            own = by_piece[line.piece]
            intakes = [name for name, edge in own.intakes.items() if edge == line.name]
            found.update(dict.fromkeys([*own.on(line), *intakes]))
    return list(found)
