"""Sound garments with one fault each: what speaks above info is that fault, and nothing else."""

from __future__ import annotations

from typing import Any

import pytest
from patterns import Document, case, loud

REMOVED = object()

E, W = "error", "warning"

# Case, JSON pointer, what stands there now, and all that is said of it.
FAULTS: list[tuple[str, str, object, dict[str, str]]] = [
    ("ferry_smock", "/pieces/sleeve/cut/0/mirrored", REMOVED, {"cutting/copies-do-not-suffice": E}),
    ("ferry_smock", "/pieces/sleeve/cut/0/count", 3, {"cutting/odd-mirrored-count": E}),
    (
        "ferry_smock",
        "/pieces/sleeve/cut/0",
        {"material": "linen", "count": 1},
        {"cutting/copies-do-not-suffice": E},
    ),
    ("ferry_smock", "/pieces/back/cut", REMOVED, {"cutting/no-cut-order": W}),
    ("ferry_smock", "/pieces/front/edges/hem/finish", REMOVED, {"cutting/edge-unaccounted": W}),
    (
        "ferry_smock",
        "/seams/again",
        {"sides": [["front.side"], ["back.side"]]},
        {"cutting/edge-sewn-twice": E},
    ),
    ("ferry_smock", "/pieces/neck_binding/strip/length", 420, {"cutting/strip-too-short": W}),
    ("ferry_smock", "/notions/sleeve_elastic/width", 14, {"openings/casing-too-narrow": W}),
    ("ferry_smock", "/notions/sleeve_elastic/length", 400, {"openings/elastic-longer-than-edge": W}),
    ("ferry_smock", "/pieces/sleeve/edges/hem/allowance", 20, {"openings/casing-allowance-too-small": W}),
    ("ferry_smock", "/pieces/front/edges/side", {"allowance": 15}, {"seams/allowances-differ": W}),
    ("ferry_smock", "/materials/linen/width", 450, {"cutting/wider-than-material": W}),
    ("ferry_smock", "/seams", {}, {"seams/none-stated": W}),
    ("sound/gored_skirt", "/seams/gore/times", 4, {"cutting/seam-missing-on-some-copies": W}),
    ("sound/gored_skirt", "/pieces/gore/cut/0/count", 5, {"cutting/copies-do-not-suffice": E}),
    ("sound/gored_skirt", "/notions/zip/length", 150, {"openings/zip-does-not-fit": W}),
    ("sound/lined_bodice", "/seams/stay/over", REMOVED, {"cutting/edge-sewn-twice": E}),
    ("sound/trousers", "/pieces/front/cut/0/mirrored", REMOVED, {"cutting/copies-do-not-suffice": E}),
    ("sound/trousers", "/seams/band_inside/over", REMOVED, {"cutting/edge-sewn-twice": E}),
    ("sound/shirt", "/pieces/collar/cut/0/count", 1, {"cutting/copies-do-not-suffice": E}),
    ("sound/shirt", "/pieces/front/allowance", 8, {"seams/allowances-differ": W}),
    ("sound/net_skirt", "/seams/gather/sides/1/layers", 2, {"cutting/seam-missing-on-some-copies": W}),
    ("sound/net_skirt", "/seams/gather/sides/1/layers", 4, {"cutting/copies-do-not-suffice": E}),
    ("sound/net_skirt", "/pieces/flounce/cut/0/count", 4, {"cutting/copies-do-not-suffice": E}),
    ("sound/dress_with_side_zip", "/seams/side_left_below", REMOVED, {"cutting/edge-unaccounted": W}),
    ("sound/dress_with_side_zip", "/pieces/pocket/cut/0/count", 1, {"cutting/copies-do-not-suffice": E}),
    ("sound/unlike_fronts", "/seams/side_left/half", "left", {"cutting/copies-do-not-suffice": E}),
    ("sound/dress_with_side_zip", "/seams/side_right/half", REMOVED, {"cutting/edge-sewn-twice": E}),
    ("sound/unlike_fronts", "/pieces/left_front/cut/0/hand", REMOVED, {"cutting/copies-do-not-suffice": E}),
    (
        "sound/wrap_skirt",
        "/pieces/front/cut/0",
        {"material": "main", "count": 1},
        {"cutting/copies-do-not-suffice": E},
    ),
    ("sound/wrap_skirt", "/pieces/front/edges/edge/finish", REMOVED, {"cutting/edge-unaccounted": W}),
    ("sound/boxer_shorts", "/notions/elastic/length", 900, {"openings/elastic-longer-than-edge": W}),
    ("sound/circle_skirt", "/materials/main/width", 1250, {"cutting/wider-than-material": W}),
    ("sound/flutter_sleeves", "/pieces/sleeve/edges/cap", REMOVED, {"cutting/edge-unaccounted": W}),
    ("sound/hooded_sweatshirt", "/notions/cord/width", 19.5, {"openings/casing-too-narrow": W}),
    (
        "sound/hooded_sweatshirt",
        "/pieces/hood/edges/face/allowance",
        22,
        {"openings/casing-allowance-too-small": W},
    ),
    ("sound/hooded_sweatshirt", "/pieces/cuff/cut/0/count", 1, {"cutting/copies-do-not-suffice": E}),
    ("sound/godet_skirt", "/seams/godet_left/times", 3, {"cutting/seam-missing-on-some-copies": W}),
    ("sound/godet_skirt", "/pieces/godet/cut/0/count", 3, {"cutting/copies-do-not-suffice": E}),
    ("sound/godet_skirt", "/notions/elastic/length", 980, {"openings/elastic-longer-than-edge": W}),
    ("sound/robe", "/pieces/sleeve/cut/0/count", 1, {"cutting/copies-do-not-suffice": E}),
    ("sound/shirt_with_yoke", "/pieces/yoke/cut/0/count", 1, {"cutting/copies-do-not-suffice": E}),
    ("sound/shirt_with_yoke", "/seams/yoke_left", REMOVED, {}),  # the other half of a symmetrical yoke
    (
        "sound/dress_with_side_zip",
        "/openings/zip/sections/0/0/to",
        ["zip_end", -12],
        {"openings/layers-differ": W},
    ),
    ("sound/cushion", "/openings/zip/lips/0/0/to", ["zip_b", 12], {"openings/layers-differ": W}),
    ("sound/zipped_pouch", "/notions/zip/length", 210, {"openings/zip-does-not-fit": W}),
    ("sound/zipped_pouch", "/openings/turning", REMOVED, {"cutting/edge-unaccounted": W}),
    ("sound/princess_dress", "/pieces/side_back/allowance", 15, {"seams/allowances-differ": W}),
    ("sound/princess_dress", "/seams/panel_front/construction", "french", {}),
    ("sound/tunic_drawn_whole", "/pieces/front/cut", [], {"cutting/no-cut-order": W}),
    ("sound/measured_skirt", "/pieces/back/cut/0/count", 3, {"cutting/odd-mirrored-count": E}),
    (
        "sound/half_waistband",
        "/pieces/front/cut/0",
        {"material": "main", "count": 2, "mirrored": True},
        {"cutting/mirrored-and-folded": W},
    ),
]


def damaged(name: str, pointer: str, value: object) -> Document:
    document = case(name)
    *way, last = pointer.lstrip("/").split("/")
    at: Any = document
    for key in way:
        at = at[int(key)] if isinstance(at, list) else at[key]
    key = int(last) if isinstance(at, list) else last
    if value is REMOVED:
        del at[key]
    else:
        at[key] = value
    return document


@pytest.mark.parametrize(
    ("name", "pointer", "value", "expected"),
    FAULTS,
    ids=[f"{name}{pointer}" for name, pointer, _, _ in FAULTS],
)
def test_one_fault_is_told_and_nothing_else(
    name: str, pointer: str, value: object, expected: dict[str, str]
) -> None:
    assert loud(damaged(name, pointer, value)) == expected


@pytest.mark.parametrize(
    ("name", "piece"),
    [
        ("buttoned_back_blouse", "front"),
        ("buttoned_back_blouse", "back"),
        ("buttoned_back_blouse", "sleeve"),
        ("godet_skirt", "panel"),
        ("boxer_shorts", "leg"),
        ("dress_with_side_zip", "armhole_binding"),
        ("shirt", "stand"),
    ],
)
def test_of_a_piece_without_a_cut_order_nothing_is_counted(name: str, piece: str) -> None:
    assert loud(damaged(f"sound/{name}", f"/pieces/{piece}/cut", REMOVED)) == {"cutting/no-cut-order": W}
