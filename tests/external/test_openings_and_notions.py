"""Zips against their openings; elastic and the casings it runs in."""

from __future__ import annotations

from typing import Any

import pytest
from external.drafting import Command, Document, box, pattern, seam


def zipped(opening: float, zip_length: float, kind: str) -> Document:
    """A skirt back in cm, open above a seam that lies on its centre, with a zip."""
    back = {
        "outline": box(25, 60),
        "notches": {"zip_end": {"edge": "start", "at": ["upper", opening], "use": "place"}},
        "cut": [{"material": "cloth", "count": 2, "mirrored": True}],
    }
    part: dict[str, Any] = {"edge": "back.start", "from": "zip_end", "to": "lower"}
    return pattern(
        {"back": back},
        "cm",
        seams={"center": seam([part], [part | {"mirrored": True}])},
        openings={
            "zip": {"kind": "zip", "sections": [[{"edge": "back.start", "from": "upper", "to": "zip_end"}]]}
        },
        notions={"zip": {"kind": "zip", "type": kind, "in": "zip", "length": zip_length}},
    )


# Usual zips, in cm: skirt 18-23, back of a dress 50-56, trouser fly 15-18 (common practice, no source).
ZIPS = [(18.0, 18.0), (20.0, 23.0), (52.0, 56.0), (16.0, 18.0)]


@pytest.mark.parametrize(("opening", "bought"), ZIPS)
@pytest.mark.parametrize("kind", ["invisible", "dress"])
def test_a_zip_is_bought_as_long_or_longer_and_cut(
    check: Command, opening: float, bought: float, kind: str
) -> None:
    """Common practice, no source: invisible and dress zips are bought longer."""
    assert check(zipped(opening, bought, kind)).findings("openings") == []


def test_a_shorter_zip_is_a_fault(check: Command) -> None:
    """Common practice, no source: the shortest usual skirt zip, 18 cm, in an opening of 20."""
    (found,) = check(zipped(20, 18, "dress")).findings("openings/zip-does-not-fit")
    assert (found["severity"], found["sizes"][0]["off"]) == ("warning", pytest.approx(-20))


@pytest.mark.parametrize(
    ("bought", "fits"), [(60.0, True), (60.4, True), (59.6, True), (61.0, False), (59.0, False)]
)
def test_a_separating_zip_equals_its_opening_within_5_mm(check: Command, bought: float, fits: bool) -> None:
    """Common practice, no source."""
    document = zipped(60, bought, "separating")
    document["seams"] = {}
    span = {"edge": "back.start", "from": "upper"}
    document["openings"]["zip"]["sections"] = [[span]]
    assert (check(document).findings("openings/zip-does-not-fit") == []) is fits


def casing(waist: float, inside: float, elastic: float, width: float) -> Document:
    """A tube in inches whose upper edge is turned down as a casing for elastic."""
    turned = {"allowance": inside + 1 / 4, "finish": {"kind": "casing", "turns": 2, "depth": inside}}
    skirt = {"outline": box(waist, 24), "edges": {"upper": turned}}
    return pattern(
        {"skirt": skirt},
        "in",
        seams={"back": seam(["skirt.end"], [{"edge": "skirt.start", "from": "lower"}])},
        notions={"elastic": {"kind": "elastic", "width": width, "length": elastic, "in": "skirt.upper"}},
    )


@pytest.mark.parametrize("less", [2.0, 4.0])
def test_waist_elastic_is_two_inches_shorter_and_snug_four(check: Command, less: float) -> None:
    """Blogs (weak): elastic = waist - 2 in, snugger - 4; cuffs - 1/2 in. No longer than its edge in any case."""
    assert check(casing(28, 1, 28 - less, 0.75)).findings("openings") == []
    (found,) = check(casing(28, 1, 28 + less, 0.75)).findings("openings/elastic-longer-than-edge")
    assert found["sizes"][0]["expected"] == pytest.approx(28 * 25.4)
    assert found["sizes"][0]["off"] == pytest.approx(less * 25.4)


@pytest.mark.parametrize(
    ("width", "inside", "fits"),
    [
        (1.5, 1.625, True),  # All People Quilt: 1 1/2 in elastic in a channel of 1 5/8
        (0.5, 0.75, True),  # blogs (weak): an opening of 3/4 to 1 in for 1/2 in elastic
        (0.5, 1.0, True),
        (0.5, 0.5, False),
        (1.5, 1.5, False),
    ],
)
def test_elastic_needs_room_in_its_casing(check: Command, width: float, inside: float, fits: bool) -> None:
    """Blogs, as noted; a casing no wider than its elastic: common practice, no source."""
    found = check(casing(28, inside, 26, width)).findings("openings/casing-too-narrow")
    assert [f["severity"] for f in found] == ([] if fits else ["warning"])


def test_an_elastic_of_nine_tenths_of_the_body(check: Command) -> None:
    """Common practice, no source: 0.90 to 0.95 of the waist, and 1 in of lap, stays below the edge it draws in."""
    for part in (0.90, 0.95):
        assert check(casing(38, 1, part * 28 + 1, 0.75)).findings("openings") == []
