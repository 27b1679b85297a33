"""Every span, and every side of several, turned round one at a time: its seam is named, and no other."""

from __future__ import annotations

import pytest
from patterns import Document, case
from storm_petrel import loud, sound, verdict
from turning import Turn, turned, turns

THE_SAME = {
    "pocket-0-0": "the pocket falls on itself when mirrored",
    "pocket-1-whole": "the pocket falls on itself when mirrored",
    "lower_flounce-0-whole": "both ends of the flounce are alike, and net has no right side",
    "lower_flounce-1-0": "both ends of the flounce are alike, and net has no right side",
}
"""Turns after which the same garment is sewn, and why."""

EQUALLY_TO_BLAME = {
    "waist-1-0": {"skirt_side"},
    "waist-1-1": {"skirt_side"},
}
"""Two seams join skirt front and skirt back: where they contradict each other, hands cannot tell which is wrong."""


def named(document: Document) -> set[str | None]:
    """The seams of which something is said above info; None for what is said of anything else."""
    return {place.seam for graded in loud(verdict(document, ("seams", "sleeves"))) for place in graded.places}


def the_law_holds(document: Document, turn: Turn) -> None:
    found = named(turned(document, turn))
    if str(turn) in THE_SAME:
        assert found == set(), THE_SAME[str(turn)]
    else:
        assert turn.seam in found
        assert found <= {turn.seam} | EQUALLY_TO_BLAME.get(str(turn), set())


@pytest.mark.slow
@pytest.mark.parametrize("turn", list(turns(sound())), ids=str)
def test_a_turned_span_of_the_demo_is_named_and_no_other_seam(turn: Turn) -> None:
    the_law_holds(sound(), turn)


@pytest.mark.parametrize("turn", list(turns(case("ferry_smock"))), ids=str)
def test_a_turned_span_of_the_smock_is_named_and_no_other_seam(turn: Turn) -> None:
    the_law_holds(case("ferry_smock"), turn)
