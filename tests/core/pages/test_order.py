"""Which layout follows from the paper, and paper that cannot do: refused in words, with what to choose instead."""

from __future__ import annotations

import pytest
from on_paper import drawn, oblong

from notchwork.findings import NotchworkError
from notchwork.pages import Paper, papers
from notchwork.pages.laid_out import laid_out
from notchwork.pages.order import ordered
from notchwork.pages.setting.labels import LETTERS, column_name, column_number, listed_pages

ANY = drawn(oblong("p", 100, 100))


@pytest.mark.parametrize(
    ("name", "layout"),
    [
        ("A4", "tiles"),
        ("A3", "tiles"),
        ("Tabloid", "tiles"),
        ("17x11 in", "tiles"),
        ("A2", "sheet"),
        ("A0", "sheet"),
        ("36 in roll", "sheet"),
    ],
)
def test_tiles_up_to_a3_and_tabloid(name: str, layout: str) -> None:
    assert ordered(ANY, Paper(papers(name))).layout == layout


@pytest.mark.parametrize(
    "paper",
    [
        Paper(papers("A4"), margin=105.0),
        Paper(papers("A4"), margin=60.0),
        Paper(papers("60x80 mm")),
        Paper(papers("A4"), overlap=100.0),
        Paper(papers("A4"), margin=-1.0),
        Paper(papers("A4"), overlap=-1.0),
        Paper(papers("36 in roll"), layout="tiles"),
        Paper(papers("100 mm roll")),
    ],
)
def test_paper_that_cannot_do_is_refused(paper: Paper) -> None:
    with pytest.raises(NotchworkError) as caught:
        laid_out(ANY, paper)
    assert caught.value.repair


def test_columns_have_letters_that_are_no_figures() -> None:
    names = [column_name(k) for k in range(700)]
    assert names[:2] == ["A", "B"]
    assert names[len(LETTERS)] == "AA"
    assert len(set(names)) == 700
    assert not any(letter in name for name in names for letter in "IO")
    assert [column_number(name) for name in names] == list(range(700))


def test_lists_of_pages_are_short_and_true() -> None:
    assert listed_pages(["A1", "B1", "C1", "A2", "B2", "F"]) == "A1–C1, A2, B2, F"
    assert listed_pages(["H1", "J1", "K1"]) == "H1–K1"
    assert listed_pages(["A1", "C1"]) == "A1, C1"


@pytest.mark.parametrize(
    ("paper", "says"),
    [
        (Paper(papers("6000x6000 mm")), "at most 5080 mm"),
        (Paper(layout="projector", join="butt"), "nothing is joined to it"),
        (Paper(layout="projector", overlap=12.0), "nothing is joined to it"),
    ],
)
def test_what_would_be_passed_over_is_refused(paper: Paper, says: str) -> None:
    with pytest.raises(NotchworkError, match=says):
        ordered(ANY, paper)


@pytest.mark.parametrize("said", ["", "A4+", "+Letter", " + "])
def test_no_paper_beside_a_plus(said: str) -> None:
    with pytest.raises(NotchworkError, match="No paper is named"):
        papers(said)
