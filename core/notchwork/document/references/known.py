"""What the references of a document are judged against: the complete pieces and their names."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import replace

from notchwork.document.faults import AMBIGUOUS, BROKEN_REFERENCE, CIRCLE, OUT_OF_RANGE, fault
from notchwork.document.nearest import nearest
from notchwork.document.pointers import pointer
from notchwork.document.references.chains import MOST_LINKS, chains, in_a_row
from notchwork.document.references.names import Line, Names, names_of
from notchwork.document.remains import Doubt
from notchwork.document.where import Where
from notchwork.findings import Finding, listed
from notchwork.model import Pattern, Piece, Place, resolved_pieces
from notchwork.values import frozen

_FIRST = {
    "materials": '{"kind": "cloth"}',
    "grade_rules": '{"S": [-4, 1], "L": [4, -1]}',
    "body": "720",
}
"""How the first thing of a section is stated, where that is short."""


@frozen
class Known:
    """A pattern, its complete pieces and their names; pieces whose names are in doubt are left out of both."""

    pattern: Pattern
    doubt: Doubt
    pieces: dict[str, Piece]
    names: dict[str, Names]
    where: Where

    def has(self, section: str, ident: str) -> bool:
        return ident in self.doubt.known[section]

    def broken(self, at: str, kind: str, name: str, among: Iterable[str], how: str = "") -> Finding:
        """There is nothing of this name; the nearest name that there is, or ``how`` to state the first (a template)."""
        among = list(among)
        suggestion = nearest(name, among)
        return fault(
            BROKEN_REFERENCE,
            at,
            'there is no {kind} called "{name}".',
            'Did you mean "{suggestion}"?'
            if suggestion
            else ("There is {among}." if among else how or "There is none yet."),
            kind=kind,
            name=name,
            suggestion=suggestion,
            among=listed(f'"{other}"' for other in among[:12]) if among else "",
        )

    def refers(self, at: str, section: str, kind: str, ident: str | None) -> Iterator[Finding]:
        """A fault if a section has nothing of this name."""
        if ident is not None and not self.has(section, ident):
            how = "There is none yet. State it: {example}." if section in _FIRST else ""
            finding = self.broken(at, kind, ident, sorted(self.doubt.known[section]), how)
            example = f'"{section}": {{{json.dumps(ident, ensure_ascii=False)}: {_FIRST.get(section, "")}}}'
            yield replace(finding, values={**finding.values, "example": example})

    def place(self, at: str, line: Line, place: Place | None) -> Iterator[Finding]:
        """A fault if a place is none on its line."""
        names = self.names[line.piece]
        if place is None or place.name in names.vague or line.name in names.vague:
            return
        name = place.name
        if name in line.nodes or names.notches.get(name) == line.name:
            return
        if name == line.unclear:
            yield fault(
                AMBIGUOUS,
                at,
                '"{name}" is the neighbour of "{line}" at both of its ends.',
                'Give the corner node that you mean a "name", and use that.',
                name=name,
                line=line.name,
            )
            return
        if name in (line.before, line.after):
            return
        yield self._no_place(at, names, line, name)

    def _no_place(self, at: str, names: Names, line: Line, name: str) -> Finding:
        here = names.on(line)
        suggestion = nearest(name, here)
        if name in names.notches:
            why = 'the notch "{name}" stands on "{other}", not on "{line}".'
        elif name in names.lines:
            why = '"{name}" is no neighbour of "{line}".'
        else:
            why = 'there is no place called "{name}" on "{line}".'
        return fault(
            BROKEN_REFERENCE,
            at,
            why,
            'Did you mean "{suggestion}"?'
            if suggestion
            else (
                'Places on "{line}" are called by {here}.' if here else 'Nothing on "{line}" has a name yet.'
            ),
            name=name,
            line=line.name,
            other=names.notches.get(name, ""),
            suggestion=suggestion,
            here=listed(f'"{place}"' for place in here) if here else "",
        )


def known(pattern: Pattern, doubt: Doubt) -> tuple[Known, list[Finding]]:
    """What references are judged against, and the faults of ``like``, without which no piece is complete."""
    pieces = pattern.pieces

    def like(ident: str) -> str | None:
        other = pieces[ident].like
        return other if other in pieces else None

    links, circles = chains(pieces, like)
    faults = [_circle(circle) for circle in circles]
    sound: set[str] = set()
    for ident in sorted(links, key=links.__getitem__):
        stated = pieces[ident].like
        if ident not in doubt.pieces and (stated is None or stated in sound) and links[ident] <= MOST_LINKS:
            sound.add(ident)
        if stated is not None and stated not in doubt.known["pieces"]:
            faults.append(_no_such_piece(pattern, doubt, ident, stated))
        if links[ident] == MOST_LINKS + 1:
            faults.append(_too_far(ident))
    complete = resolved_pieces(replace(pattern, pieces={i: p for i, p in pieces.items() if i in sound}))
    names = {
        ident: names_of(ident, piece, _vague(pattern, doubt, ident)) for ident, piece in complete.items()
    }
    return Known(pattern, doubt, complete, names, Where(pattern)), faults


def _circle(circle: list[str]) -> Finding:
    return fault(
        CIRCLE,
        pointer("pieces", circle[0], "like"),
        "pieces are like each other in a circle: {chain}.",
        "State the shape in one of them.",
        chain=in_a_row([*circle, circle[0]]),
    )


def _too_far(ident: str) -> Finding:
    return fault(
        OUT_OF_RANGE,
        pointer("pieces", ident, "like"),
        "pieces are like each other {most} times in a row and more.",
        "Let it be like the piece that the others are like in the end.",
        most=MOST_LINKS,
    )


def _no_such_piece(pattern: Pattern, doubt: Doubt, ident: str, like: str) -> Finding:
    nobody = Known(pattern, doubt, {}, {}, Where(pattern))
    others = sorted(doubt.known["pieces"] - {ident})
    return nobody.broken(pointer("pieces", ident, "like"), "piece", like, others)


def _vague(pattern: Pattern, doubt: Doubt, ident: str) -> frozenset[str]:
    """The names of a piece that stand but could not be read, those of the pieces that it is like included."""
    vague: set[str] = set()
    current: str | None = ident
    while current is not None:
        vague |= doubt.within.get(current, set())
        current = pattern.pieces[current].like
    return frozenset(vague)
