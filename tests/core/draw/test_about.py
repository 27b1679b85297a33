"""What a first page says: the maker's words, the cautions, and the cut list in the words of the pieces."""

from __future__ import annotations

from patterns import case, nest_of

from notchwork.draw import Options, draw_pattern
from notchwork.drawing import CutRow
from notchwork.sewing.cautions import CAUTIONS


def test_the_makers_words_and_the_cautions_go_along() -> None:
    document = case("ferry_smock") | {"author": "A. Maker", "license": "CC-BY-4.0", "description": "A smock."}
    drawing = draw_pattern(nest_of(document))
    assert drawing.about.author == "A. Maker"
    assert drawing.about.license == "CC-BY-4.0"
    assert drawing.about.description == "A smock."
    assert drawing.about.cautions == CAUTIONS
    assert drawing.unit == document.get("unit", "mm")


def test_a_row_of_the_cut_list_reads_as_its_piece_does() -> None:
    nest = nest_of(case("ferry_smock"))
    drawing = draw_pattern(nest)
    assert [row.group for row in drawing.about.cuts] == list(nest.pieces)
    for row, group in zip(drawing.about.cuts, drawing.groups, strict=False):
        assert row.piece == nest.pieces[row.group].name
        assert row.orders
        assert set(row.orders) <= {text.words for text in group.texts}


def test_the_cut_list_holds_what_is_drawn() -> None:
    drawing = draw_pattern(nest_of(case("ferry_smock")), Options(pieces=("sleeve",)))
    assert [(row.group, len(row.orders)) for row in drawing.about.cuts] == [("sleeve", 1)]
    assert isinstance(drawing.about.cuts[0], CutRow)
