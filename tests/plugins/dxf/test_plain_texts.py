"""Words of TEXT, MTEXT and ATTRIB: what they say without their codes, and where they stand."""

from __future__ import annotations

import pytest
from cad_files import FACING_AWAY, drawing, new
from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment as Align
from ezdxf.tools.text import plain_mtext
from hypothesis import given
from hypothesis import strategies as st

from notchwork.drawing import Text
from notchwork_plugins.dxf.plain.mtext import lines_of


def texts(document: Document) -> list[Text]:
    return [text for group in drawing(document).groups for text in group.texts]


@pytest.mark.parametrize(
    ("written", "lines"),
    [
        (r"Front\PCut 2", ["Front", "Cut 2"]),
        (r"{\fArial|b1|i0;\H3.5x;Front} \C1;panel", ["Front panel"]),
        (r"\A1;12\H0.7x;\S1/2;\H1.4286x; in", ["121/2 in"]),
        (r"a \\ b \{c\}", ["a \\ b {c}"]),
        (r"\LSleeve\l \Oline\o \Kgone\k", ["Sleeve line gone"]),
        (r"\pi0,l2;hem\~2 cm", ["hem 2 cm"]),
        (r"90%%d %%p1 %%c20", ["90° ±1 ⌀20"]),
        (r"one\P\Pthree", ["one", "", "three"]),
        (r"\S+0.1^-0.2;", ["+0.1/-0.2"]),
    ],
)
def test_codes_of_mtext(written: str, lines: list[str]) -> None:
    assert lines_of(written) == lines


@given(st.text(st.characters(codec="latin-1", exclude_categories=["C"]), max_size=40))
def test_any_words_are_read(written: str) -> None:
    """Whatever stands there ends in lines without a code for a new one."""
    assert all("\n" not in line for line in lines_of(written))


@pytest.mark.parametrize(
    "written",
    [r"Front\PCut 2 {\fArial|b0;lining}", r"\H2.5;\W0.8;Back \C3;red\P\Lname\l", r"\T1.2;wide \Q15;slanted"],
)
def test_ezdxf_reads_the_same_words(written: str) -> None:
    assert "\n".join(lines_of(written)) == plain_mtext(written)


def test_lines_of_a_paragraph_stand_below_each_other() -> None:
    document = new()
    document.modelspace().add_mtext(
        r"Front\PCut 2",
        dxfattribs={"insert": (100, 200), "char_height": 6, "attachment_point": 1, "rotation": 90},
    )
    first, second = texts(document)
    assert (first.words, second.words) == ("Front", "Cut 2")
    assert first.height == pytest.approx(6)
    assert first.angle == pytest.approx(90)
    # Turned by 90°, up is to the left: the first base line lies a height below the insertion point.
    assert first.at == pytest.approx(106 + 200j)
    assert second.at == pytest.approx(116 + 200j)


@pytest.mark.parametrize(
    ("align", "anchor", "below"),
    [
        (Align.LEFT, "start", 0.0),
        (Align.CENTER, "middle", 0.0),
        (Align.RIGHT, "end", 0.0),
        (Align.MIDDLE_CENTER, "middle", 0.5),
        (Align.TOP_RIGHT, "end", 1.0),
        (Align.MIDDLE, "middle", 0.5),
    ],
)
def test_where_a_line_is_anchored(align: Align, anchor: str, below: float) -> None:
    document = new(units=1)
    document.modelspace().add_text("Sleeve", height=0.5).set_placement((10, 20), align=align)
    (text,) = texts(document)
    assert text.anchor == anchor
    assert text.height == pytest.approx(12.7)
    assert text.at == pytest.approx(254 + (508 - below * 12.7) * 1j)


def test_between_two_points_it_runs_from_one_to_the_other() -> None:
    document = new()
    document.modelspace().add_text("Hem", height=3).set_placement((0, 0), (10, 10), align=Align.FIT)
    (text,) = texts(document)
    assert text.angle == pytest.approx(45)
    assert text.at == 0


def test_text_that_faces_away_is_mirrored() -> None:
    document = new()
    document.modelspace().add_text("Left", height=3, dxfattribs={"insert": (10, 5), "extrusion": FACING_AWAY})
    (text,) = texts(document)
    assert text.at == pytest.approx(-10 + 5j)


def test_attributes_of_a_block_are_words_and_its_forms_are_not() -> None:
    document = new()
    block = document.blocks.new("PIECE")
    block.add_attdef("NAME", (1, 1), dxfattribs={"height": 2})
    block.add_lwpolyline([(0, 0), (50, 0), (50, 50)], close=True)
    insert = document.modelspace().add_blockref("PIECE", (100, 0), dxfattribs={"xscale": 2, "yscale": 2})
    insert.add_auto_attribs({"NAME": "Yoke"})
    hidden = insert.add_attrib("SECRET", "not shown", (0, 0))
    hidden.is_invisible = True
    assert [text.words for text in texts(document)] == ["Yoke"]
