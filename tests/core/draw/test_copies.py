"""Each piece as many times as it is cut, in either hand, and pieces of one material alone."""

from __future__ import annotations

import numpy as np
import pytest
from patterns import Document, nest_of

from notchwork.draw import Options, draw_pattern
from notchwork.draw.copies import turned_text
from notchwork.drawing import Drawing, Group, Text
from notchwork.findings import NotchworkError
from notchwork.geometry import area


def document(**cut: object) -> Document:
    """A front in two sizes, and a facing that is cut from fusible alone."""
    outline = [
        {"at": [0, 0], "edge": "hem"},
        {"at": [90, 0], "edge": "side"},
        {"at": [90, 120], "edge": "top"},
        {"at": [0, 150], "edge": "center"},
    ]
    return {
        "notchwork": "1.0",
        "sizes": {"names": ["S", "L"], "base": "S"},
        "grade_rules": {"out": {"L": [8, 0]}},
        "materials": {"outer": {"name": "Brushed cotton"}, "fusible": {"kind": "interfacing"}},
        "pieces": {
            "front": {
                "outline": [{**n, **({"grade": "out"} if n["at"][0] else {})} for n in outline],
                "cut": [cut],
            },
            "facing": {"outline": outline, "cut": [{"material": "fusible", "count": 1}]},
        },
    }


def pieces(drawing: Drawing, piece: str = "front") -> list[Group]:
    return [group for group in drawing.groups if group.facts.get("piece") == piece]


def outline_area(group: Group, size: str) -> float:
    drawn = [s.cubics for s in group.strokes if s.meaning == "stitch" and s.facts.get("size") == size]
    return float(area(np.concatenate(drawn)))


def test_a_piece_stands_once_unless_copies_are_asked_for() -> None:
    nest = nest_of(document(material="outer", count=4, mirrored=True))
    assert len(pieces(draw_pattern(nest))) == 1
    assert [row.group for row in draw_pattern(nest, Options(copies=True)).about.cuts] == ["front", "facing"]


def test_half_of_the_copies_of_pairs_are_mirrored_and_say_so() -> None:
    drawing = draw_pattern(nest_of(document(material="outer", count=4, mirrored=True)), Options(copies=True))
    found = pieces(drawing)
    assert [group.name for group in found] == ["front", "front copy 2", "front copy 3", "front copy 4"]
    areas = [outline_area(group, "S") for group in found]
    assert np.sign(areas).tolist() == [1, 1, -1, -1]
    assert np.abs(areas) == pytest.approx(areas[0])
    assert [group.facts["name"] for group in found] == [
        "Front",
        "Front (2 of 4)",
        "Front (3 of 4, mirrored)",
        "Front (4 of 4, mirrored)",
    ]
    assert "copy 3 of 4, mirrored: Brushed cotton" in [text.words for text in found[2].texts]
    for group in found[1:]:
        assert all("copy" in part.facts for part in (*group.strokes, *group.dots, *group.texts))


def test_a_copy_stands_in_the_sizes_of_which_that_many_are_cut() -> None:
    nest = nest_of(document(material="outer", count={"S": 2, "L": 3}))
    found = pieces(draw_pattern(nest, Options(copies=True)))
    held = [{s.facts["size"] for s in group.strokes if "size" in s.facts} for group in found]
    assert held == [{"S", "L"}, {"S", "L"}, {"L"}]
    assert len(pieces(draw_pattern(nest, Options(copies=True, sizes=("S",))))) == 2


def test_only_pieces_of_the_material_are_drawn_and_copied_for_it() -> None:
    nest = nest_of(document(plies=["outer", "fusible"], count=2))
    assert len(pieces(draw_pattern(nest, Options(copies=True)))) == 4
    alone = draw_pattern(nest, Options(copies=True, materials=("outer",)))
    assert len(pieces(alone)) == 2
    assert not pieces(alone, "facing")
    assert pieces(draw_pattern(nest, Options(materials=("fusible",))), "facing")


def test_a_piece_that_is_not_cut_in_a_size_has_no_copy_in_it() -> None:
    nest = nest_of(document(material="outer", count={"S": 0, "L": 2}))
    assert not pieces(draw_pattern(nest, Options(copies=True, sizes=("S",))))
    assert len(pieces(draw_pattern(nest, Options(copies=True, sizes=("L",))))) == 2
    assert len(pieces(draw_pattern(nest, Options(sizes=("S",))))) == 1


def test_a_piece_without_cut_orders_stands_once() -> None:
    whole = document(material="outer", count=2)
    del whole["pieces"]["front"]["cut"]
    assert len(pieces(draw_pattern(nest_of(whole), Options(copies=True)))) == 1


def test_the_first_copy_stands_in_most_sizes() -> None:
    """It alone is read as the piece again."""
    whole = document(material="outer", count={"S": 0, "L": 1})
    whole["pieces"]["front"]["cut"].append({"material": "fusible", "count": 1})
    first, second = pieces(draw_pattern(nest_of(whole), Options(copies=True)))
    assert {s.facts["size"] for s in first.strokes if "size" in s.facts} == {"S", "L"}
    assert {s.facts["size"] for s in second.strokes if "size" in s.facts} == {"L"}


def test_more_copies_than_can_be_waited_for_are_refused() -> None:
    nest = nest_of(document(material="outer", count=1001))
    with pytest.raises(NotchworkError, match="1,001 times"):
        draw_pattern(nest, Options(copies=True))


def test_mirrored_copies_only() -> None:
    found = pieces(draw_pattern(nest_of(document(material="outer", hand="mirrored")), Options(copies=True)))
    assert len(found) == 1
    assert outline_area(found[0], "S") < 0
    assert "copy" in found[0].facts


@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
@pytest.mark.parametrize("angle", [0.0, 30.0, -60.0, 90.0, 89.0])
def test_words_of_the_mirror_lie_where_it_has_them_and_can_be_read(anchor: str, angle: float) -> None:
    text = Text(12 + 7j, "waist", 4.0, "edge-name", anchor, angle)  # type: ignore[arg-type]
    turned = turned_text(text)
    assert -90.0 < turned.angle <= 90.0
    middle, mirrored = (sum(one.box) / 4 for one in (text, turned))
    assert mirrored == pytest.approx(-middle.conjugate())
    assert turned_text(turned).at == pytest.approx(text.at)
