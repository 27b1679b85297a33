"""Words beside an edge that say what becomes of it where no seam takes it."""

from __future__ import annotations

from typing import Any

import pytest
from by_hand import box, outline, read, shape, stroke, text, told

from notchwork.drawing import Text
from notchwork.model import Finish, Piece
from notchwork.recognise.shape import Shape
from notchwork.recognise.words import WordsRead
from notchwork.recognise.words.finishes import finish_of


@pytest.mark.parametrize(
    ("words", "finish", "name"),
    [
        ("hem", Finish("hem"), "hem"),
        ("Hem 2 cm", Finish("hem", depth=20.0), "Hem"),
        ("hem, 3/4 in deep", Finish("hem", depth=19.05), "hem"),
        ("waist casing", Finish("casing"), "waist"),
        ("casing 30 mm", Finish("casing", depth=30.0), None),
        ("raw edge", Finish("raw"), None),
        ("neckline bound 8 mm", Finish("bound", width=8.0), "neckline"),
        ("faced", Finish("faced"), None),
        ("overcast", Finish("overcast"), None),
        ("rolled hem", Finish("rolled"), "hem"),
        ("Saum 4 cm", Finish("hem", depth=40.0), "Saum"),
    ],
)
def test_short_words_state_a_finish(words: str, finish: Finish, name: str | None) -> None:
    assert finish_of(words) == (finish, name)


@pytest.mark.parametrize(
    "words", ["hem band", "side seam", "waist", "casing piece", "hem seam", "hem stitch line"]
)
def test_other_words_do_not(words: str) -> None:
    assert finish_of(words) is None


def skirt(*more: Text, **others: Any) -> Shape:
    texts = (text("hem 2 cm", 150 + 6j), text("waist casing", 150 + 594j), *more)
    return shape(box(300, 600), "front", named=True, texts=texts, **others)


def piece(found: WordsRead) -> Piece:
    return found.pattern.pieces["front"]


def test_the_words_beside_an_edge_become_its_finish_and_its_name() -> None:
    found = read(skirt())
    edges = piece(found).edges
    assert {name: edge.finish for name, edge in edges.items() if edge is not None} == {
        "hem": Finish("hem", depth=20.0),
        "waist": Finish("casing"),
    }
    assert "finish" in told(found)


def test_a_label_beside_the_edge_goes_before() -> None:
    found = read(skirt(text("A", 80 + 6j)))
    assert "hem" not in piece(found).edges
    assert "waist" in piece(found).edges


def test_an_edge_on_the_fold_has_no_finish() -> None:
    found = read(skirt(text("fold", 80 + 6j)))
    edge = piece(found).edges["hem"]
    assert edge is not None
    assert edge.fold
    assert edge.finish is None


def test_the_word_casing_beside_a_line_inside_is_about_that_line() -> None:
    found = read(skirt(strokes=(stroke(10 + 585j, 290 + 585j),)))
    assert "waist" not in piece(found).edges
    assert [line.use for line in piece(found).inner.values() if line is not None] == ["casing"]


def test_an_edge_that_is_only_named_has_none() -> None:
    found = read(shape(outline(box(300, 600)), "front", named=True, texts=(text("side", 294 + 300j),)))
    assert piece(found).edges == {}
    assert "finish" not in told(found)
