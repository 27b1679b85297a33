"""A line drawn inside two pieces goes on across the seam that joins them."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, nest_of

from notchwork.sewing.ways.joints import loose_joints


def panels(distance_on_right: float, **side: Any) -> Document:
    """Two panels with a line below their upper edges; a flounce is sewn on that line across the seam between them."""

    def panel(distance: float) -> Document:
        corners = {"lower": [0, 0], "right": [200, 0], "upper": [200, 400], "left": [0, 400]}
        return {
            "outline": [{"at": at, "edge": edge} for edge, at in corners.items()],
            "inner": {"line": {"parallel_to": "upper", "distance": distance}},
        }

    flounce = [{"at": at} for at in ([0, 0], [400, 0], [400, 90], [0, 90])]
    for node, edge in zip(flounce, ("lower", "right", "upper", "left"), strict=True):
        node["edge"] = edge
    return {
        "notchwork": "1.0",
        "pieces": {"one": panel(150), "two": panel(distance_on_right), "flounce": {"outline": flounce}},
        "seams": {
            "between": {"sides": [["one.right"], [{"edge": "two.left", "from": "lower"} | side]]},
            "flounce": {
                "sides": [
                    [{"edge": "one.line", "from": "left"}, {"edge": "two.line", "from": "left"}],
                    [{"edge": "flounce.upper", "from": "left"}],
                ]
            },
        },
    }


@pytest.mark.parametrize("step", [0.0, 1.6])
def test_a_line_that_goes_on_across_a_seam_is_joined(step: float) -> None:
    assert not list(loose_joints(nest_of(panels(150 + step))))


def test_a_line_that_steps_at_the_seam_is_not_joined() -> None:
    (loose,) = loose_joints(nest_of(panels(151.7)))
    assert (loose.seam, loose.before.piece, loose.after.piece) == ("flounce", "one", "two")


def test_a_seam_on_the_other_copy_does_not_join_it() -> None:
    assert [joint.seam for joint in loose_joints(nest_of(panels(150, mirrored=True)))] == ["flounce"]


def test_a_seam_that_is_known_to_run_the_wrong_way_joins_it_turned_round() -> None:
    nest = nest_of(panels(150, **{"from": "upper"}))
    assert [joint.seam for joint in loose_joints(nest)] == ["flounce"]
    assert not list(loose_joints(nest, {"between"}))
