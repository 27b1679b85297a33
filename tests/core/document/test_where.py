from __future__ import annotations

import json
from typing import Any

import pytest

from notchwork.document import Where, pointer_for, read_pattern
from notchwork.findings import Place
from notchwork.model import Pattern


@pytest.fixture
def pattern(ferry: dict[str, Any]) -> Pattern:
    ferry["pieces"]["lining"] = {
        "like": "front",
        "edges": {"hem": {"allowance": 10}, "neck": None},
        "notches": {"pitch": None, "own": {"edge": "side", "at": ["hem", 90]}},
        "cut": None,
    }
    ferry["openings"] = {
        "gap": {"kind": "gap", "lips": [["front.hem"], ["back.hem"]]},
        "zip": {"kind": "zip", "sections": [["front.side"]]},
    }
    found = read_pattern(json.dumps(ferry).encode(), "x").pattern
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("place", "pointer"),
    [
        (Place(seam="side", piece="front", line="side"), "/seams/side"),
        (Place(piece="front"), "/pieces/front"),
        (Place(piece="front", line="hem"), "/pieces/front/edges/hem"),
        (Place(piece="front", line="side"), "/pieces/front/outline/4"),
        (Place(piece="lining", line="hem"), "/pieces/lining/edges/hem"),
        (Place(piece="lining", line="center"), "/pieces/front/edges/center"),
        (Place(piece="lining", line="neck"), "/pieces/front/outline/1"),
        (Place(piece="lining", line="side"), "/pieces/front/outline/4"),
        (Place(piece="lining", notch="own"), "/pieces/lining/notches/own"),
        (Place(piece="lining", notch="pitch"), "/pieces/lining"),
        (Place(piece="front", line="armhole", notch="pitch"), "/pieces/front/notches/pitch"),
        (Place(piece="neck_binding", line="upper"), "/pieces/neck_binding/strip"),
        (Place(opening="gap"), "/openings/gap"),
        (Place(notion="sleeve_elastic"), "/notions/sleeve_elastic"),
        (Place(material="linen"), "/materials/linen"),
        (Place(pointer="/sizes/names/1", piece="front"), "/sizes/names/1"),
        (Place(piece="nobody", line="hem"), "/pieces/nobody"),
        (Place(), ""),
    ],
)
def test_a_place_leads_to_where_it_is_stated(pattern: Pattern, place: Place, pointer: str) -> None:
    assert pointer_for(pattern, place) == pointer


def test_spans_are_found_however_their_side_is_written(pattern: Pattern) -> None:
    where = Where(pattern)
    assert where.span("armhole", 0, 1) == "/seams/armhole/sides/0/1"
    assert where.span("armhole", 1, 0) == "/seams/armhole/sides/1/spans/0"
    assert where.span_of_opening("gap", 1, 0) == "/openings/gap/lips/1/0"
    assert where.span_of_opening("zip", 0, 0) == "/openings/zip/sections/0/0"
    assert where.node("sleeve", "crown") == "/pieces/sleeve/outline/2"
    assert where.key_of("lining", "grainline") == "/pieces/front/grainline"
