"""A plain seam in one size: as it sews, and with one side too long below the notch."""

from __future__ import annotations

from typing import Any

import pytest

from notchwork import jobs
from notchwork.pictures import Picture
from notchwork.pictures.seam import seam_pictures
from tests.patterns import Document, case


def pictured(document: Document, seam: str) -> Picture:
    import json

    verdict = jobs.check(jobs.load(json.dumps(document).encode(), "test.pattern.json"))
    assert verdict.nest is not None
    return seam_pictures(verdict.nest, verdict)[seam]


@pytest.fixture
def skirt() -> Document:
    return case("two_panel_skirt")


def test_a_seam_that_sews_lies_flat_and_stitched(skirt: Document) -> None:
    picture = pictured(skirt, "side")
    assert picture.width == 344
    assert 'class="stitches"' in picture.body
    assert 'class="off"' not in picture.body
    assert picture.title.endswith(": sews")


def test_a_side_that_is_too_long_hangs_off_below_its_notch(skirt: Document) -> None:
    skirt["pieces"]["back"] = _longer(skirt, 6.0)
    picture = pictured(skirt, "side")
    assert picture.body.count('class="off"') == 1
    assert "6.0 longer" in picture.body
    assert picture.says.startswith("Will not sew.")


def _longer(skirt: Document, by: float) -> dict[str, Any]:
    front = skirt["pieces"]["front"]
    outline = [dict(node) for node in front["outline"]]
    for node in outline:
        if node["at"][1] == 0:
            node["at"] = [node["at"][0], -by]
    return {**front, "name": "Back", "outline": outline}
