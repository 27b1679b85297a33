"""What layers, and blocks or groups that hold several, say of the lines in them."""

from __future__ import annotations

from dataclasses import replace

from sketches import box, layers, polyline

from notchwork.drawing import Drawing, Group, Look, Stroke
from notchwork.findings import worded
from notchwork.recognise import Seen, find_shapes, recognise

DASH_DOT = Look("#000000", dashes=(9.0, 3.0, 0.0, 3.0))
SQUARE = (0j, 300 + 0j, 300 + 200j, 200j)


def block(name: str, **groups: tuple[Stroke, ...]) -> tuple[Group, ...]:
    return tuple(Group(layer, strokes, within=(name,)) for layer, strokes in groups.items())


def sides(at: complex = 0j) -> list[Stroke]:
    """The four sides of a piece, one by one."""
    ends = [at + z for z in SQUARE]
    return [polyline(a, b) for a, b in zip(ends, [*ends[1:], ends[0]], strict=True)]


def aside(seen: Seen) -> list[str]:
    return [worded(f.text, f.values) for f in seen.findings if f.rule.id == "recognised/set-aside"]


def test_a_block_whose_lines_lie_on_two_layers_is_one_piece_and_gives_its_name():
    first, second, third, fourth = sides()
    (shape,) = find_shapes(Drawing(block("Keel", edge=(first, second), axis=(third, fourth)))).shapes
    assert shape.ident == "Keel"
    assert len(shape.outline.corners) == 4


def test_lines_that_cross_the_ends_of_a_block_keep_it_whole():
    """As before, but other lines end on the corners, so that no ring leads round."""
    first, second, third, fourth = sides()
    tail = polyline(SQUARE[0], -80 - 50j)
    (shape,) = find_shapes(Drawing(block("Keel", edge=(first, second), axis=(third, fourth, tail)))).shapes
    assert shape.ident == "Keel"


def test_layers_side_by_side_stay_apart():
    """The space between the pieces of two layers is neither's, in a block too."""
    left = polyline(0j, 100 + 0j, 100 + 300j, 300j, closed=True)
    right = polyline(200 + 0j, 300 + 0j, 300 + 300j, 200 + 300j, closed=True)
    ties = (polyline(100 + 0j, 200 + 0j), polyline(100 + 300j, 200 + 300j))
    seen = find_shapes(Drawing(block("lay", one=(left, ties[0]), two=(right, ties[1]))))
    assert sorted(shape.ident for shape in seen.shapes) == ["one", "two"]


def test_copies_of_a_block_go_by_its_name_and_not_by_that_of_a_layer_in_each():
    copies = [
        replace(group, shift=complex(400 * k))
        for k, name in enumerate(("patch", "patch 2"))
        for group in block(name, attachment=tuple(sides()))
    ]
    assert [shape.ident for shape in find_shapes(Drawing(tuple(copies))).shapes] == ["patch", "patch 2"]


def test_sizes_round_pieces_are_no_names():
    sizes = [
        replace(group, shift=complex(400 * k))
        for k, name in enumerate(("S", "M"))
        for group in block(name, front=tuple(sides()))
    ]
    assert [shape.ident for shape in find_shapes(Drawing(tuple(sizes))).shapes] == ["front", "front_2"]


def test_layers_that_help_to_draw_are_set_aside_by_their_names():
    helps = [polyline(-50 + 0j, -50 + 200j), box(-100, -100, 600, 500)]
    for name in (
        "DIM",
        "dimensions",
        "Hulplijnen",
        "Konstruktion_Hilfslinien",
        "construction lines",
        "guides",
    ):
        seen = find_shapes(layers(**{"Front": [box(0, 0, 300, 200)], name: helps}))
        assert [shape.ident for shape in seen.shapes] == ["Front"], name
        assert aside(seen) == [f"Set aside as line on the layer {name}: 2."]


def test_where_all_lies_on_such_a_layer_nothing_is_set_aside():
    seen = find_shapes(layers(dimensions=[box(0, 0, 300, 200)]))
    assert len(seen.shapes) == 1
    assert aside(seen) == []


def test_a_layer_is_not_taken_for_a_helping_one_by_a_part_of_its_name():
    for name in ("Dimity lining", "Guided front", "Maat M", "Dimple"):
        assert (
            len(find_shapes(layers(**{name: [box(0, 0, 300, 200)], "Back": [box(400, 0, 300, 200)]})).shapes)
            == 2
        )


def test_dashes_and_dots_round_a_whole_outline_make_no_fold():
    whole = recognise(layers(Front=[polyline(*SQUARE, closed=True, look=DASH_DOT)])).pattern.pieces["Front"]
    assert not any(edge is not None and edge.fold for edge in whole.edges.values())
    first, second, third, fourth = sides()
    one = recognise(layers(Front=[first, second, third, replace(fourth, look=DASH_DOT)])).pattern.pieces[
        "Front"
    ]
    assert [name for name, edge in one.edges.items() if edge is not None and edge.fold] == ["left"]
