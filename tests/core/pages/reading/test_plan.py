"""The plan of assembly: every page once, with its label, in its place."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from on_paper import beyond, drawings, drawn, oblong, overlapping, words_on

from notchwork.drawing import Drawing
from notchwork.pages import Paper
from notchwork.pages.laid_out import laid_out
from notchwork.pages.sheet import Sheet


def plans(drawing: Drawing, paper: Paper | None = None) -> list[Sheet]:
    return [sheet for sheet in laid_out(drawing, paper).sheets if sheet.title.startswith("Plan")]


@settings(max_examples=8, deadline=None)
@given(drawings(5))
def test_every_page_has_its_label_in_the_plan_once(drawing: Drawing) -> None:
    sheets = laid_out(drawing)
    labels = sorted(sheet.label for sheet in sheets.sheets if sheet.windows)
    shown = [
        text.words
        for sheet in plans(drawing)
        for text in sheet.marks.texts
        if text.anchor == "middle" and text.meaning == "name"
    ]
    assert sorted(shown) == labels


@settings(max_examples=8, deadline=None)
@given(drawings(6))
def test_the_plan_stays_on_its_page(drawing: Drawing) -> None:
    for sheet in plans(drawing):
        assert not beyond(sheet, 10.0)
        assert not overlapping(sheet)


def test_labels_lie_as_pages_do() -> None:
    """Right of A1 lies B1, below it A2."""
    (plan,) = plans(drawn(oblong("big", 300, 500)))
    at = {text.words: text.at for text in plan.marks.texts}
    assert at["B1"].real > at["A1"].real
    assert at["B1"].imag == pytest.approx(at["A1"].imag)
    assert at["A2"].imag < at["A1"].imag
    assert at["A2"].real == pytest.approx(at["A1"].real)


def test_it_says_how_pages_are_joined() -> None:
    overlap = words_on(plans(drawn(oblong("big", 300, 500)))[0])
    assert "lay it on its neighbour" in overlap
    butt = words_on(plans(drawn(oblong("big", 300, 500)), Paper(join="butt"))[0])
    assert "edge to edge" in butt
    whole = words_on(plans(drawn(oblong("small", 50, 50)))[0])
    assert "nothing is joined to them" in whole
    assert "hourglass" not in whole
