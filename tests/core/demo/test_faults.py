"""The faulty demo: every fault of the table is found, and undoing one changes nothing that is said of the others."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest
from patterns import Document
from storm_petrel import FAULTS, faulty, loud, sound, verdict, with_fault, without_fault

from notchwork.checks import Graded, Verdict


@cache
def all_faults() -> Verdict:
    return verdict(faulty())


def said(of: Verdict) -> set[tuple[str, tuple[str, ...], object]]:
    """What is said above info: by which check, of what, and how loudly with its figures."""
    return {(g.rule.id, named(g), (g.severity, figures(g))) for g in loud(of)}


def named(graded: Graded) -> tuple[str, ...]:
    """The seams, pieces, openings and notions that a finding is put down to."""
    return tuple(
        place.seam or place.notion or place.opening or place.piece or place.material or ""
        for place in graded.places
    )


def figures(graded: Graded) -> tuple[object, ...]:
    rows = [graded_row.row for graded_row in graded.rows]
    return tuple((row.size, round(row.off, 3), row.measured, row.expected) for row in rows)


def test_it_is_the_sound_one_with_the_faults_of_the_table() -> None:
    document = sound()
    for name in FAULTS:
        with_fault(document, name)
    expected, found = document, faulty()
    for key in ("title", "description"):
        del expected[key], found[key]
    assert found == expected


def test_undoing_all_gives_the_sound_one() -> None:
    document = faulty()
    for name in FAULTS:
        without_fault(document, name)
    expected = sound()
    for key in ("title", "description"):
        del document[key], expected[key]
    assert document == expected


def test_a_dozen_faults_of_ten_kinds() -> None:
    assert len(FAULTS) >= 12
    assert len({fault["speaks"] for fault in FAULTS.values()}) >= 10


@pytest.mark.slow
@pytest.mark.parametrize("name", FAULTS)
def test_undoing_a_fault_takes_its_findings_away_and_no_other(name: str) -> None:
    document = faulty()
    without_fault(document, name)
    before, after = said(all_faults()), said(verdict(document))
    assert after < before
    taken_away = {(rule, name) for rule, names, _ in before - after for name in names}
    assert (FAULTS[name]["speaks"], FAULTS[name]["of"]) in taken_away


def test_nothing_is_said_but_of_the_faults() -> None:
    """Each finding goes with one fault: what undoing them takes away is all that is said."""
    expected = {(fault["speaks"], fault["of"]) for fault in FAULTS.values()}
    assert {(g.rule.id, named(g)[0]) for g in loud(all_faults())} == expected


def test_half_of_the_seams_and_pieces_carry_none_and_are_left_alone() -> None:
    document = sound()
    blamed = {place for graded in loud(all_faults()) for place in named(graded)}
    for things in (document["seams"], document["pieces"]):
        faultless = [ident for ident in things if ident not in blamed and ident not in set(carriers())]
        assert len(faultless) >= len(things) / 2


def carriers() -> Iterator[str]:
    """The seams and pieces into which a fault was put."""
    for fault in FAULTS.values():
        _, group, ident, *_ = fault["pointer"].split("/")
        if group in ("seams", "pieces"):
            yield ident
        else:
            yield fault["of"]


def test_findings_stand_where_the_document_has_them() -> None:
    document: Document = faulty()
    for graded in loud(all_faults()):
        for place in graded.places:
            assert place.seam is None or place.seam in document["seams"]
            assert place.piece is None or place.piece in document["pieces"]
