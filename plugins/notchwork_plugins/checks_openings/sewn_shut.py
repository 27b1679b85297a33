"""An opening that a seam sews shut."""

from __future__ import annotations

from collections.abc import Iterator

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.model import Opening
from notchwork.sewing import Line, Nest
from notchwork.sewing.counts.shut import Shut, openings_sewn_shut

SHUT = Rule(
    id="openings/sewn-shut",
    title="A seam sews an opening shut",
    rationale="Where an opening lies, its two lips stay apart: a seam that joins them begins where the opening ends. A few "
    "stitches past its end do no harm.",
    source="Common practice, no source.",
    quiet="A lining, a facing or a binding sewn along one lip; basting; the seam that closes a gap at last; and whatever may be "
    "a second layer of the same piece, as in a band, a stand or a cuff.",
    grade=Tolerance(warning=5.0),
)

TEXT = "It joins {lips} over {length} of the {opening}, and sews it shut there."
HINT = "Let the seam stop where the opening begins"
OR_HALF = ", or say in which half it is sewn so (“half”)"
OR_CLOSES = ", or if it closes the gap at last, say so in the gap's “closed_by”"


@check(SHUT)
def sewn_shut(nest: Nest) -> Iterator[Finding]:
    for shut in openings_sewn_shut(nest):
        yield _finding(nest, shut)


def _finding(nest: Nest, shut: Shut) -> Finding:
    opening, seam = nest.pattern.openings[shut.opening], nest.pattern.seams[shut.seam]
    hint = HINT
    if opening.half is not None and seam.half is None:
        hint += OR_HALF
    if opening.kind == "gap":
        hint += OR_CLOSES
    one, other = shut.lips
    return Finding(
        SHUT,
        Place(seam=shut.seam, opening=shut.opening),
        TEXT,
        hint + ".",
        {
            "lips": _lips(nest, one, other),
            "opening": _opening_name(opening, shut.opening),
        },
        tuple(
            Row(
                size,
                off=float(length),
                measured=float(length),
                expected=0.0,
                values={"length": Length(float(length))},
            )
            for size, length in zip(nest.sizes, shut.length, strict=True)
        ),
        tuple(dict.fromkeys((one.piece, other.piece))),
    )


def _lips(nest: Nest, one: Line, other: Line) -> str:
    names = (f"{nest.pieces[line.piece].name} ({plain_name(line.name)})" for line in (one, other))
    return f"both copies of {next(names)}" if one is other else " and ".join(names)


def _opening_name(opening: Opening, ident: str) -> str:
    words = opening.name or plain_name(ident)
    return words if "opening" in words.lower() else f"{words} opening"
