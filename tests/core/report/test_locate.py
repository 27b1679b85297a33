from __future__ import annotations

from notchwork.findings import Place
from notchwork.model import Edge, Node, Notch, Pattern, Piece
from notchwork.model import Place as ModelPlace
from notchwork.report.locate import pointer_of

OUTLINE = (Node(at=0j, edge="side"), Node(at=1j), Node(at=1 + 0j, edge="a/b"))
PATTERN = Pattern(
    version="1.0",
    pieces={
        "front": Piece(
            outline=OUTLINE, edges={"hem": Edge()}, notches={"n": Notch("side", ModelPlace("side"))}
        ),
        "lining": Piece(like="front"),
    },
)


def test_a_place_leads_to_the_nearest_thing_that_is_written_down() -> None:
    assert pointer_of(Place(piece="front", line="hem"), PATTERN) == "/pieces/front/edges/hem"
    assert pointer_of(Place(piece="front", line="a/b"), PATTERN) == "/pieces/front/outline/2"
    assert pointer_of(Place(piece="front", notch="n", line="side"), PATTERN) == "/pieces/front/notches/n"
    assert pointer_of(Place(piece="lining", notch="n"), PATTERN) == "/pieces/lining"
    assert pointer_of(Place(seam="nowhere", piece="front"), PATTERN) == "/pieces/front"
    assert pointer_of(Place(), PATTERN) is None
    assert pointer_of(Place(piece="front", pointer="/x"), PATTERN) == "/x"
