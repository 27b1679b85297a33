"""Words on the pictures of corners: names are text whatever is in them, and no two lie on each other."""

from __future__ import annotations

import pytest
from skirts import SVG, corner, drawn, element, skirt, texts
from verdicts import FAULTY

from notchwork.checks import Verdict
from notchwork.pictures import Picture
from notchwork.pictures.corner import corner_pictures
from notchwork.pictures.lettering import width

HOSTILE = [
    "<script>alert(1)</script>",
    "\"'&\x00\x1b[31m",
    "x" * 10_000,
    "مقدمة\u202egnol",
    "🧵" * 300,
    "{0} {name}",
    "\u2028-",
]
HEIGHTS = {"muted": 11.0, "head": 14.0, "figure": 14.0}


def boxes(picture: Picture) -> list[tuple[float, float, float, float, str]]:
    """Left, top, right and bottom of every text, from widths that are rather too large."""
    found = []
    for mark in element(picture).iter(f"{SVG}text"):
        said, kinds = "".join(mark.itertext()), (mark.get("class") or "").split()
        size = next((HEIGHTS[kind] for kind in kinds if kind in HEIGHTS), 12.0)
        wide = width(said, size, bool({"head", "figure", "strong"} & set(kinds)))
        x, y = float(mark.get("x")), float(mark.get("y"))
        group = mark.getparent().get("transform")
        if group:
            dx, dy = (float(part) for part in group.removeprefix("translate(").removesuffix(")").split())
            x, y = x + dx, y + dy
        left = x - wide if "end" in kinds else x
        found.append((left, y - 0.75 * size, left + wide, y + 0.22 * size, said))
    return found


def touching(picture: Picture) -> list[tuple[str, str]]:
    found = boxes(picture)
    return [
        (a[4], b[4])
        for k, a in enumerate(found)
        for b in found[:k]
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]


def test_no_two_texts_touch_and_none_leaves_the_picture(looked_at: Verdict) -> None:
    assert looked_at.nest is not None
    for found in corner_pictures(looked_at.nest, looked_at):
        assert touching(found.picture) == []
        for left, top, right, bottom, said in boxes(found.picture):
            assert left >= 0, said
            assert right <= found.picture.width + 1, said
            assert top >= 0, said
            assert bottom <= found.picture.height, said


@pytest.mark.parametrize("lower", [-20.0, -3.0, 0.0, 3.0, 30.0, 200.0])
@pytest.mark.parametrize("hem", [-60.0, -10.0, 0.0, 10.0, 60.0])
def test_no_two_texts_touch_however_much_is_off(lower: float, hem: float) -> None:
    for found in drawn(skirt(lower=lower, hem=hem)):
        assert touching(found.picture) == []


@pytest.mark.parametrize("name", HOSTILE)
def test_names_stay_text_and_leave_room_for_others(name: str) -> None:
    document = skirt(lower=3.0, hem=8.0)
    document["pieces"]["back"]["name"] = name
    document["seams"]["side"]["name"] = name
    found = corner(document)
    assert element(found.picture).find(f".//{SVG}script") is None
    assert touching(found.picture) == []
    assert len(found.picture.body) < 12_000
    assert len(found.picture.says) < 2_000


def test_the_text_alternative_says_which_piece_which_way_how_much_and_where() -> None:
    assert corner(skirt(lower=2.0)).picture.says == (
        "Hem at Side seam: look. Back ends 2.0 mm lower than Front. Front on the left, Back on the right, joined by "
        "Side seam, its end. They leave the seam at 90.0° and 90.0°."
    )
    assert corner(skirt(hem=-8.0)).picture.says.startswith(
        "Hem at Side seam: look. The hem bends by 8.0° at the seam: Back rises, "
    )


def test_two_edges_of_one_piece_are_told_apart() -> None:
    sleeve = next(found for found in drawn(FAULTY) if found.seam == "sleeve_seam" and found.end == "end")
    assert "Sleeve, front seam" in texts(sleeve.picture)
    assert "Sleeve, back seam" in texts(sleeve.picture)


def test_edges_can_be_pointed_at_and_name_themselves_and_their_angle() -> None:
    groups = [g for g in element(corner(skirt()).picture).iter(f"{SVG}g") if g.get("data-edges")]
    assert [g.get("data-edges") for g in groups] == ["front:hem", "back:hem"]
    assert [g.get("aria-label") for g in groups] == [
        "Front, hem: leaves Side seam at 90.0°",
        "Back, hem: leaves Side seam at 90.0°",
    ]
    assert all(g.get("data-seam") == "side" for g in groups)
