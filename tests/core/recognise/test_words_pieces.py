"""Names, sizes, cut orders, allowances: what is written on pieces, and every size laid on the others."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from by_hand import box, outline, read, shape, stroke, text, told

from notchwork.document import read_pattern, write_pattern
from notchwork.drawing import Stroke, Text
from notchwork.geometry import lines
from notchwork.recognise.shape import Contour, Seen
from notchwork.recognise.words import WordsRead, read_words
from notchwork.recognise.words.ids import is_made_up, slug, unique, valid
from notchwork.sewing import Nest


def sound(found: WordsRead) -> WordsRead:
    """The same, after its document was read back without a fault."""
    result = read_pattern(write_pattern(found.pattern), "test")
    assert result.faults == ()
    return found


def test_a_piece_is_called_by_the_largest_words_inside_it() -> None:
    found = read(shape(box(300, 600), texts=(text("cut 2", 150 + 200j), text("Back yoke", 150 + 300j, 12))))
    assert list(found.pattern.pieces) == ["back_yoke"]
    assert found.pattern.pieces["back_yoke"].name == "Back yoke"
    assert "piece-name" in told(found)


def test_a_name_may_stand_beside_its_piece_and_a_note_may_begin_with_it() -> None:
    below = read(shape(box(300, 600), texts=(text("inferior panel", 150 - 30j),)))
    assert list(below.pattern.pieces) == ["inferior_panel"]
    note = tuple(
        Text(320 + (300 - 7 * k) * 1j, words, 5.0)
        for k, words in enumerate(
            ["Storm flap. It covers the zip,", "so cut it wide enough", "and fold it once."]
        )
    )
    flap = read(shape(box(300, 600), texts=note))
    assert list(flap.pattern.pieces) == ["storm_flap"]
    assert "so cut it wide enough" in str(flap.pattern.pieces["storm_flap"].note)


def test_the_head_of_a_note_that_stands_far_off_is_found_through_its_other_lines() -> None:
    lines_of_it = [
        Text(320 + (300 - 7 * k) * 1j, w, 5.0)
        for k, w in enumerate(["Webbing. As stiff", "as can be, and", "long."])
    ]
    seen = Seen((shape(box(300, 600), texts=tuple(lines_of_it[1:])),), texts=(lines_of_it[0],))
    assert list(read_words(seen).pattern.pieces) == ["webbing"]


def test_group_names_count_but_not_those_that_programs_make() -> None:
    assert list(read(shape(box(9, 9), groups=("Pattern", "sleeve"))).pattern.pieces) == ["sleeve"]
    assert list(read(shape(box(9, 9), groups=("Layer 1",))).pattern.pieces) == ["piece_1"]
    assert list(read(shape(box(9, 9), "rect40597", named=True)).pattern.pieces) == ["piece_1"]
    assert list(read(shape(box(9, 9), "Cuff.left", named=True)).pattern.pieces) == ["Cuff_left"]


def test_two_pieces_of_one_name_are_told_apart() -> None:
    two = [
        shape(box(300, 600, 400.0 * k), f"p{k}", texts=(text("Panel", 150 + 400 * k + 300j),)) for k in (0, 1)
    ]
    assert list(read(*two).pattern.pieces) == ["panel", "panel_2"]


def test_edges_are_called_by_words_by_paths_and_by_where_they_lie() -> None:
    contour = outline(box(300, 600))
    drawn = [
        Stroke(contour.cubics[k : k + 1], facts={"name": name})
        for k, name in enumerate(["path12", "armhole", "g3", "x"])
    ]
    contour = Contour(contour.cubics, contour.corners, np.arange(4))
    seen = Seen((shape(contour, texts=(text("CF", 6 + 300j),)),))
    found = sound(read_words(seen, drawn))
    assert Nest(found.pattern).pieces["piece_1"].edges == ("bottom", "armhole", "top", "center_front")


def test_several_edges_that_look_one_way_have_numbers() -> None:
    steps = [0j, 300 + 0j, 300 + 100j, 200 + 100j, 200 + 200j, 0 + 200j]
    [graded] = Nest(read(shape(steps)).pattern).pieces.values()
    assert graded.edges == ("bottom", "right_1", "top_1", "right_2", "top_2", "left")


def test_a_closed_curve_and_a_lens_have_places_too() -> None:
    for nodes, corners, edges in (
        ([0j, 100 + 0j, 100 + 100j, 100j], (0,), 1),
        ([0j, 100 + 0j, 100 + 100j, 100j], (0, 2), 2),
    ):
        tick = stroke(97 + 40j, 103 + 40j)
        found = sound(read(shape(outline(nodes, corners), strokes=(tick,))))
        nest = Nest(found.pattern)
        [graded] = nest.pieces.values()
        assert len(graded.edges) == edges
        [arc] = nest.notches.values()
        assert arc == pytest.approx([140])


def test_cut_orders_bring_their_materials_and_even_numbers_are_pairs() -> None:
    found = sound(
        read(
            shape(
                box(300, 600),
                texts=(text("Front", 150 + 300j, 12), text("cut 2 lining, 1 interfacing", 150 + 200j)),
            )
        )
    )
    assert [(c.material, c.count, c.mirrored) for c in found.pattern.pieces["front"].cut or ()] == [
        ("lining", 2, True),
        ("interfacing", 1, False),
    ]
    assert found.pattern.materials["interfacing"].kind == "interfacing"
    assert "cut-order" in told(found)


def test_on_a_fold_nothing_is_mirrored_besides_and_a_missing_fold_is_asked_for() -> None:
    words = (text("cut 2 on fold", 150 + 200j), text("fold", 6 + 300j))
    folded = read(shape(box(300, 600), texts=words))
    [cut] = folded.pattern.pieces["piece_1"].cut or ()
    assert (cut.count, cut.mirrored) == (2, False)
    assert "fold-unknown" not in told(folded)
    assert "fold-unknown" in told(read(shape(box(300, 600), texts=words[:1])))


def test_an_allowance_in_words_holds_where_none_is_drawn() -> None:
    words = (text("seam allowance 12 mm", 150 + 200j),)
    assert read(shape(box(300, 600), texts=words)).pattern.pieces["piece_1"].allowance == 12
    drawn = read(shape(box(300, 600), texts=words, allowances=(20.0, 15.0, 15.0, 15.0)))
    assert drawn.pattern.pieces["piece_1"].allowance == 15
    assert drawn.pattern.pieces["piece_1"].edges["bottom"].allowance == 20  # type: ignore[union-attr]
    unknown = read(shape(box(300, 600), texts=words, kind=None)).pattern.pieces["piece_1"]
    assert (unknown.allowance, unknown.outline_is) == (None, "unknown")


def test_sizes_lie_on_each_other_with_what_is_drawn_in_each_or_once() -> None:
    def size(name: str, wide: float, **more: Any) -> Any:
        return shape(box(wide, 600), "front", named=True, size=name, **more)

    ticks = {
        w: (stroke(w - 3 + 200j, w + 3 + 200j), stroke(w * 0.5 + 597j, w * 0.5 + 603j))
        for w in (280, 300, 320)
    }
    found = sound(
        read(
            size("S", 280, strokes=ticks[280]),
            size("M", 300, strokes=ticks[300], texts=(text("Front", 150 + 300j, 10),)),
            size("L", 320, strokes=ticks[320]),
            sizes=("S", "M", "L"),
            base="M",
        )
    )
    nest = Nest(found.pattern)
    assert found.pattern.sizes is not None
    assert (found.pattern.sizes.names, found.pattern.sizes.base) == (("S", "M", "L"), "M")
    assert nest.line("front", "bottom").length == pytest.approx([280, 300, 320])
    assert nest.notches["front", "right_notch"] == pytest.approx([200, 200, 200])
    assert nest.notches["front", "top_notch"] == pytest.approx([140, 150, 160])


def test_a_size_with_other_corners_is_left_out_and_told() -> None:
    found = read(
        shape(box(300, 600), "front", named=True, size="M"),
        shape([0j, 320 + 0j, 320 + 300j, 330 + 600j, 600j], "front", named=True, size="L"),
        sizes=("M", "L"),
        base="M",
    )
    assert list(found.pattern.pieces["front"].outlines or {}) == ["M"]
    assert "sizes-differ" in told(found)


def test_lines_that_move_from_size_to_size_get_grade_rules() -> None:
    from notchwork.recognise.shape import Inner

    def size(name: str, y: float) -> Any:
        line = Inner(lines(np.array([20 + y * 1j, 200 + y * 1j])), facts={"name": "pocket"})
        return shape(box(300, 600), "front", named=True, size=name, inner=(line,))

    found = sound(read(size("S", 90), size("M", 100), size("L", 112), sizes=("S", "M", "L"), base="M"))
    nest = Nest(found.pattern)
    line = nest.line("front", "pocket")
    assert [nest.cubics_of(line, k)[0, 0].imag for k in range(3)] == pytest.approx([90, 100, 112])


def test_ids() -> None:
    assert slug("Inferior  panel!") == "inferior_panel"
    assert slug("Ärmel") == "ärmel"
    assert slug("—") == ""
    assert valid("a.b#c") == "a_b_c"
    assert unique("a", ["a", "a_2"]) == "a_3"
    assert [n for n in ("rect12", "path-7-3", "Layer 1", "g", "layer1", "12") if not is_made_up(n)] == []
    assert not is_made_up("sleeve")
    assert is_made_up("Front cut line")
    assert is_made_up("stitch_line")
    assert not is_made_up("neckline")
    assert not is_made_up("group leader")
