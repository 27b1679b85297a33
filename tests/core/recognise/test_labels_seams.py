"""Match labels become seams: sides, joints, rings, directions, joins."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import box, outline, shape, stroke, text, with_seams

from notchwork.document import read_pattern, write_pattern
from notchwork.drawing import Stroke
from notchwork.model import Pattern
from notchwork.recognise.shape import Shape
from notchwork.sewing import Nest


def spans(pattern: Pattern, seam: str) -> list[list[tuple[str, bool]]]:
    """Each side's edges in walking order, and whether they are walked in the outline's order."""
    nest = Nest(pattern)
    return [
        [(f"{stretch.graded.id}.{stretch.line.name}", stretch.forward) for stretch in side.stretches]
        for side in nest.sides[seam]
    ]


def panel(ident: str, labels: str, wide: float = 300, tall: float = 600) -> Shape:
    """A rectangle with labels on its edges, in the order bottom, right, top, left; - for none."""
    places = (wide / 2 + 6j, wide - 6 + 0.5j * tall, wide / 2 + 1j * (tall - 6), 6 + 0.5j * tall)
    texts = tuple(text(label, at) for label, at in zip(labels.split(), places, strict=True) if label != "-")
    return shape(box(wide, tall), ident, named=True, texts=texts)


def valid(pattern: Pattern) -> None:
    assert read_pattern(write_pattern(pattern), "test").faults == ()


def test_a_label_on_two_edges_is_a_seam() -> None:
    pattern, told = with_seams(panel("front", "- A - -"), panel("back", "- - - A"))
    assert spans(pattern, "A") == [[("front.right", True)], [("back.left", False)]]
    assert pattern.seams["A"].name == "Seam A"
    assert "seam" in told
    valid(pattern)


def test_also_on_one_piece_whose_hands_leave_one_direction() -> None:
    pattern, told = with_seams(panel("tube", "- A - A"))
    assert spans(pattern, "A") == [[("tube.right", True)], [("tube.left", False)]]
    assert "direction-unknown" not in told


def test_a_label_that_stands_once_is_told() -> None:
    pattern, told = with_seams(panel("front", "- A B -"), panel("back", "- - - B"))
    assert list(pattern.seams) == ["B"]
    assert "label-alone" in told
    assert "labels-unanswered" not in told


def test_where_no_label_is_answered_that_is_told_with_what_to_do() -> None:
    pattern, told = with_seams(panel("front", "- A - -"), panel("back", "- - - B"))
    assert pattern.seams == {}
    assert told == {"labels-unanswered"}


def test_a_label_counts_once_for_each_edge() -> None:
    twice = panel("front", "- A - -")
    twice = replace(twice, texts=(*twice.texts, text("A", 294 + 150j)))
    pattern, _ = with_seams(twice, panel("back", "- - - A"))
    assert len(pattern.seams["A"].sides) == 2


@pytest.mark.parametrize("words", ["CF", "CB", "L", "R", "hem", "600", "2x"])
def test_words_sides_dimensions_and_counts_make_no_seam(words: str) -> None:
    pattern, told = with_seams(
        shape(box(300, 600), "a", named=True, texts=(text(words, 294 + 300j),)),
        shape(box(300, 600), "b", named=True, texts=(text(words, 294 + 300j),)),
    )
    assert pattern.seams == {}
    assert "label-alone" not in told


def test_size_names_make_no_seam() -> None:
    def front(ident: str, size: str) -> Shape:
        return shape(box(300, 600), ident, named=True, size=size, texts=(text(size, 294 + 300j),))

    shapes = [front(ident, size) for ident in ("a", "b") for size in ("S", "M")]
    pattern, told = with_seams(*shapes, sizes=("S", "M"), base="M")
    assert pattern.seams == {}
    assert told == set()


def test_a_label_between_two_edges_is_asked_about() -> None:
    narrow = shape(box(20, 600), "strap", named=True, texts=(text("A", 10 + 300j, 4),))
    pattern, told = with_seams(narrow, panel("back", "- - - A"))
    assert pattern.seams == {}
    assert "label-unclear" in told


def test_labels_of_several_sizes_count_once() -> None:
    def size(name: str, wide: float) -> list[Shape]:
        labelled = panel("front", "- A - -", wide), panel("back", "- A - -", wide)
        return [replace(piece, size=name) for piece in labelled]

    shapes = [*size("S", 290), *size("M", 300), *size("L", 312)]
    pattern, _ = with_seams(*shapes, sizes=("S", "M", "L"), base="M")
    assert [len(side.spans) for side in pattern.seams["A"].sides] == [1, 1]
    valid(pattern)


def tick(a: complex, b: complex, share: float) -> Stroke:
    """A short stroke square to the line from a to b, that share of the way along it."""
    at, out = a + share * (b - a), 3j * (b - a) / abs(b - a)
    return stroke(at - out, at + out)


def tee(
    sleeve_words: str = "C", ease: str = "", notches: bool = False, cap_flipped: bool = False
) -> list[Shape]:
    """Half a front and half a back, alike, and a sleeve: shoulder A, side B, armhole C, sleeve seam D."""
    body = [0j, 500j, 80 + 560j, 180 + 530j, 220 + 380j, 220 + 0j]

    def half(ident: str, ticks: int) -> Shape:
        words = (
            text("fold", 8 + 250j),
            text("A", 130 + 538j),
            text("B", 213 + 190j),
            text("C", 192 + 452j),
        )
        strokes = tuple(tick(body[3], body[4], 0.4 + 0.05 * k) for k in range(ticks)) if notches else ()
        return shape(body, ident, named=True, texts=words, strokes=strokes)

    cap = outline([-180 + 0j, -180 + 150j, -90 + 230j, 260j, 90 + 230j, 180 + 150j, 180 + 0j], (0, 1, 5, 6))
    words = (text("D", -173 + 75j), text("D", 173 + 75j), text(sleeve_words, 252j))
    words += (text(ease, 28 + 250j, 4),) if ease else ()
    left, right = ((-180 + 150j, -90 + 230j), (180 + 150j, 90 + 230j))
    front, back = (right, left) if cap_flipped else (left, right)
    ticks = (tick(*front, 0.5), tick(*back, 0.5), tick(*back, 0.57))
    strokes = ticks if notches else ()
    sleeve = shape(cap, "sleeve", named=True, texts=words, strokes=strokes)
    return [half("front", 1), half("back", 2), sleeve]


def test_of_three_pieces_the_side_is_the_one_whose_joints_others_join() -> None:
    pattern, _ = with_seams(*tee())
    seam = pattern.seams["C"]
    one, other = spans(pattern, "C")
    assert {name for name, _ in one} == {"front.right_1", "back.right_1"}
    assert other[0][0] == "sleeve.top"
    assert seam.closed
    assert not pattern.seams["B"].closed
    valid(pattern)
    assert Nest(pattern).loose_joints == ()
    assert Nest(pattern).wrong_way == {}


def test_shoulder_and_side_run_from_top_to_bottom_on_both_pieces() -> None:
    """Walked the other way, the armhole's joints would not be joined."""
    pattern, told = with_seams(*tee())
    for seam in ("A", "B"):
        (one,), (other,) = spans(pattern, seam)
        assert one[1] == other[1]
    assert "direction-unknown" in told


def test_a_ring_begins_under_the_arm_where_nothing_but_the_drawing_tells() -> None:
    pattern, told = with_seams(*tee())
    start = Nest(pattern).sides["C"][0].stretches[0].start_spot
    assert start.line in ("right_2",)
    assert "ring-start" in told


def test_notches_tell_which_way_the_sleeve_is_set_in() -> None:
    for flipped in (False, True):
        pattern, _ = with_seams(*tee(notches=True, cap_flipped=flipped))
        nest = Nest(pattern)
        [comparison] = nest.walks["C"].others
        assert comparison.pairing.crossed == ()
        assert comparison.pairing.unequal == ()
        kinds = [station.kind for station in comparison.pairing.stations]
        assert {"single", "double"} <= set(kinds)


def test_ease_beside_a_label_states_its_join() -> None:
    for shapes in (tee(ease="ease 20 mm"), tee("C ease 20 mm")):
        pattern, _ = with_seams(*shapes)
        one, other = pattern.seams["C"].sides
        assert one.join is None
        assert other.join is not None
        assert (other.join.kind, other.join.amount) == ("eased", 20.0)
        assert other.spans[0].target == "sleeve.top"


def test_gathers_lie_on_the_side_that_says_so() -> None:
    pattern, _ = with_seams(panel("flounce", "- - A -", wide=600), panel("skirt", "A - - -"))
    assert all(side.join is None for side in pattern.seams["A"].sides)
    flounce = panel("flounce", "- - A -", wide=600)
    flounce = replace(flounce, texts=(*flounce.texts, text("gather 2", 330 + 594j)))
    pattern, _ = with_seams(flounce, panel("skirt", "A - - -"))
    one, other = pattern.seams["A"].sides
    assert (one.spans[0].target, other.spans[0].target) == ("skirt.bottom", "flounce.top")
    assert other.join is not None
    assert (other.join.kind, other.join.ratio) == ("gathered", 2.0)
    valid(pattern)


def test_a_waist_of_four_pieces() -> None:
    top, skirt = ("W A - B", "- C W D")
    shapes = [
        panel("front", top.replace("A", "P").replace("B", "T")),
        panel("back", top.replace("A", "T").replace("B", "P")),
        panel("skirt_front", skirt.replace("C", "U").replace("D", "V")),
        panel("skirt_back", skirt.replace("C", "V").replace("D", "U")),
    ]
    pattern, told = with_seams(*shapes)
    sides = [{name.partition(".")[0] for name, _ in side} for side in spans(pattern, "W")]
    assert sides == [{"front", "back"}, {"skirt_front", "skirt_back"}]
    assert pattern.seams["W"].closed
    assert Nest(pattern).loose_joints == ()
    assert "sides-unknown" not in told


def test_where_no_other_seam_tells_the_sides_they_are_asked_for() -> None:
    pattern, told = with_seams(panel("a", "- A - -"), panel("b", "- - - A"), panel("c", "- - - A"))
    assert pattern.seams == {}
    assert "sides-unknown" in told


def test_a_figure_on_many_pieces_is_asked_about_at_once() -> None:
    pattern, told = with_seams(*(panel(f"loop_{k}", "- 7 - 8") for k in range(18)))
    assert pattern.seams == {}
    assert told == {"label-unclear"}
    pattern, told = with_seams(*(panel(f"loop_{k}", "- X - Y") for k in range(18)))
    assert pattern.seams == {}
    assert told == {"sides-unknown"}


def test_sides_may_be_stated() -> None:
    shapes = [
        shape(box(300, 600), "long", named=True, texts=(text("A side 1", 287 + 300j, 4),)),
        panel("b", "A - - X", tall=300),
        panel("c", "- - X A", tall=300),
    ]
    shapes[1] = replace(shapes[1], texts=(text("A side 2", 150 + 5j, 4), text("X", 6 + 150j)))
    shapes[2] = replace(shapes[2], texts=(text("A side 2", 14 + 150j, 4), text("X", 150 + 294j)))
    pattern, told = with_seams(*shapes)
    one, other = spans(pattern, "A")
    assert [name for name, _ in one] == ["long.right"]
    assert {name for name, _ in other} == {"b.bottom", "c.left"}
    assert "sides-unknown" not in told
    valid(pattern)


def test_a_lens_and_a_closed_curve_can_be_sewn() -> None:
    lens = outline([0j, 100 + 0j, 100 + 100j, 100j], (0, 2))
    shapes = [
        shape(lens, "a", named=True, texts=(text("A", 60 + 6j),)),
        shape(lens, "b", named=True, texts=(text("A", 60 + 6j),)),
    ]
    pattern, _ = with_seams(*shapes)
    valid(pattern)
    assert Nest(pattern).walks["A"].others[0].difference == pytest.approx([0.0])
    disc = outline([0j, 100 + 0j, 100 + 100j, 100j], (0,))
    base = shape(disc, "base", named=True, texts=(text("A", 50 + 6j),))
    pattern, _ = with_seams(base, panel("wall", "A B - B", wide=400))
    valid(pattern)
    assert pattern.seams["A"].closed
    assert Nest(pattern).walks["A"].others[0].difference == pytest.approx([0.0])


def test_copies_cut_in_one_hand_decide_the_direction() -> None:
    """Of slanted panels cut once each only copies as drawn exist: no choice of hands is left."""
    slanted = [0j, 300 + 0j, 380 + 400j, 80 + 400j]

    def cut_once(ident: str, at: complex) -> Shape:
        words = (text("cut 1", 190 + 200j), text("A", at))
        return shape(slanted, ident, named=True, texts=words)

    pattern, told = with_seams(cut_once("a", 332 + 200j), cut_once("b", 48 + 200j))
    assert spans(pattern, "A") == [[("a.right", True)], [("b.left", False)]]
    assert "direction-unknown" not in told


def test_names_of_sizes_are_no_labels() -> None:
    for size in ("S", "M", "L", "XL", "XXL"):
        pattern, told = with_seams(panel("front", f"- {size} - -"), panel("back", f"- - - {size}"))
        assert pattern.seams == {}
        assert told == {"label-unclear"}


def nested(ident: str, *sizes: str) -> list[Shape]:
    return [
        shape(
            box(300 + 20 * k, 600 + 10 * k),
            f"{ident}_{k}",
            named=True,
            texts=(text(size, 300 + 20 * k - 3 + 300j),),
        )
        for k, size in enumerate(sizes)
    ]


def test_figures_beside_outlines_that_lie_in_each_other_are_sizes() -> None:
    pattern, told = with_seams(*nested("front", "36", "38", "40"), *nested("back", "36", "38", "40"))
    assert pattern.seams == {}
    assert told == {"label-unclear"}
    beside = [replace(piece, outline=outline(box(300, 600, 2000j))) for piece in (panel("a", "- - - -"),)]
    pattern, _ = with_seams(panel("front", "- 36 - -"), panel("back", "- - - 36"), *beside)
    assert list(pattern.seams) == ["36"]
