"""Documents in inches, body tables by size, and widths of cloth."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from external.drafting import Command, Document, box, line, outline, pattern, seam

from notchwork.cli import main

# The pattern industry's Misses sizes of the 1970s, in inches (blog, Sewing Scholar, 2011).
SIZES = ["6", "8", "10", "12", "14", "16", "18", "20"]
GIRTHS = {
    "bust": [30.5, 31.5, 32.5, 34, 36, 38, 40, 42],
    "waist": [23, 24, 25, 26.5, 28, 30, 32, 34],
    "hip": [32.5, 33.5, 34.5, 36, 38, 40, 42, 44],
}
# The same, by the yard of 0.9144 m: an inch is 25.4 mm.
MILLIMETRES = {
    "bust": [774.7, 800.1, 825.5, 863.6, 914.4, 965.2, 1016.0, 1066.8],
    "waist": [584.2, 609.6, 635.0, 673.1, 711.2, 762.0, 812.8, 863.6],
    "hip": [825.5, 850.9, 876.3, 914.4, 965.2, 1016.0, 1066.8, 1117.6],
}


def bands(**lengths: list[float]) -> Document:
    """A band for each girth, and a skirt top to go with the waist, in every size."""
    sized = {name: dict(zip(SIZES, row, strict=True)) for name, row in lengths.items()}
    skirt = {
        "outlines": {
            size: outline(
                top=line(20j + waist, 20j), a=line(20j, 0), hem=line(0, waist), b=line(waist, 20j + waist)
            )
            for size, waist in sized["waist"].items()
        }
    }
    pieces = {name: {"strip": {"width": 2, "length": row}} for name, row in sized.items()}
    return pattern(
        pieces | {"skirt": skirt},
        "in",
        sizes={"names": SIZES, "base": "12", "ordered": True},
        body=sized,
        seams={"waist": seam(["waist.lower"], ["skirt.top"])},
    )


def test_a_body_table_in_inches_is_measured_in_millimetres(describe: Command) -> None:
    """Sewing Scholar, as above; the inch by the international yard agreement of 1959."""
    report = describe(bands(**GIRTHS))
    for name, row in MILLIMETRES.items():
        assert [report.length(name, "lower", size) for size in SIZES] == pytest.approx(row)


def test_a_pattern_graded_by_that_table_fits_in_every_size(check: Command) -> None:
    """Sewing Scholar, as above: every girth grows all the way, by unlike steps, which is no fault."""
    report = check(bands(**GIRTHS))
    assert report.findings("sizes") == report.findings("seams/unequal-length") == []
    assert report.seam("waist", "18")["lengths"] == pytest.approx([812.8, 812.8])


def test_two_sizes_exchanged_are_told(check: Command) -> None:
    """The same table with the waist of 14 written where 10 belongs, and 10's where 14's: it grows, shrinks and grows."""
    waist = list(GIRTHS["waist"])
    waist[2], waist[4] = waist[4], waist[2]
    found = check(bands(**GIRTHS | {"waist": waist})).findings("sizes/grows-then-shrinks")
    assert {p for f in found for p in f["pieces"]} == {"waist", "skirt"}


def test_the_table_comes_back_in_inches(tmp_path: Path) -> None:
    """What was written in inches is written in inches, to the last digit of the table."""
    source, target = tmp_path / "a.pattern.json", tmp_path / "b.pattern.json"
    source.write_text(json.dumps(bands(**GIRTHS)), encoding="utf-8")
    assert main(["convert", str(source), str(target)]) == 0
    back = json.loads(target.read_text("utf-8"))
    assert back["unit"] == "in"
    for name, row in GIRTHS.items():
        assert list(back["body"][name].values()) == row
        assert list(back["pieces"][name]["strip"]["length"].values()) == row


# Bolts and where they fold, in inches: Threads 151. The tip as printed says 26 for 54, which is an error: that is half of 52.
BOLTS = [(45, 22.5), (54, 27.0), (60, 30.0), (52, 26.0)]


@pytest.mark.parametrize(("bolt", "half"), BOLTS)
def test_half_a_piece_on_the_fold_of_a_bolt(check: Command, bolt: float, half: float) -> None:
    """Threads 151: a piece as wide as the folded cloth fits exactly, a quarter inch more does not."""

    def document(width: float) -> Document:
        front = {
            "outline": box(width, 40),
            "edges": {"start": {"fold": True}},
            "grainline": [[width / 2, 5], [width / 2, 35]],
        }
        return pattern({"front": front}, "in") | {"materials": {"cloth": {"width": bolt}}}

    assert check(document(half)).findings("cutting/wider-than-material") == []
    (found,) = check(document(half + 0.25)).findings("cutting/wider-than-material")
    assert found["sizes"][0]["off"] == pytest.approx(0.5 * 25.4)
