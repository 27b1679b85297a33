"""The cap of a sleeve against its armhole."""

from __future__ import annotations

from patterns import case, loud, said


def test_a_low_cap_lacks_ease() -> None:
    document = case("ferry_smock")
    document["pieces"]["sleeve"]["outline"][2]["at"] = [0, 405]
    [(rule, how, words)] = said(document, "seams", "sleeves")
    assert (rule, how) == ("sleeves/cap-ease", "warning")
    assert "Sleeve has 8.0 mm of ease over Front + Back" in words
    assert "11.0 mm to 17.0 mm is wanted, so 3.0 mm is missing" in words


def test_ease_below_the_notches() -> None:
    """4 mm too much cap below the back notch, where nothing may be eased; the ease above it is as wanted."""
    document = case("ferry_smock")
    document["pieces"]["sleeve"]["notches"]["back_pitch"]["at"] = ["back_seam", 94]
    document["seams"]["armhole"]["sides"][1]["join"]["amount"] = [9, 12]
    assert loud(document, "seams", "sleeves") == {"sleeves/unequal-below-notches": "error"}


def test_without_the_role_the_family_is_silent_and_the_seam_speaks() -> None:
    document = case("ferry_smock")
    document["pieces"]["sleeve"]["outline"][2]["at"] = [0, 405]
    del document["seams"]["armhole"]["role"]
    assert loud(document, "seams", "sleeves") == {"seams/ease-not-as-stated": "warning"}


def test_a_sleeve_attached_in_part_is_silent() -> None:
    """Sewn only under the arm, the rest of the head bound: the armhole is no ring and carries no ease."""
    document = case("ferry_smock")
    document["seams"]["armhole"] = {
        "role": "sleeve",
        "sides": [
            [
                {"edge": "front.armhole", "from": "pitch", "to": "side"},
                {"edge": "back.armhole", "from": "side", "to": "pitch"},
            ],
            [
                {"edge": "sleeve.cap", "from": "front_pitch", "to": "front_seam"},
                {"edge": "sleeve.cap", "from": "back_seam", "to": "back_pitch"},
            ],
        ],
    }
    assert loud(document, "seams", "sleeves") == {}
