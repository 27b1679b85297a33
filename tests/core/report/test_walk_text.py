from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from notchwork import jobs
from notchwork.demo import example
from notchwork.model import Edge, Join, Pattern, Piece, Seam, Side, Sizes, Span
from notchwork.report import Paper, describe_text, walk_text
from notchwork.sewing import Nest

UNITS = ("mm", "cm", "in")


def demo(unit: str = "mm", name: str = "sound.pattern.json") -> Nest:
    from dataclasses import replace

    return Nest(replace(jobs.load(example(name), "demo").sound(), unit=unit))  # type: ignore[arg-type]


def walked(nest: Nest, seam: str, width: int = 80) -> list[str]:
    """The lines under the seam's name."""
    text = walk_text("a.json", nest, [nest.walks[seam]], Paper(width))
    return text.partition(" seam\n")[2].splitlines()


def taped(one: dict[str, float], further: dict[str, float], join: Join | None = None) -> Nest:
    """A seam of two edges that were measured by tape, by size."""
    names = tuple(one)
    return Nest(
        Pattern(
            version="1.0",
            sizes=Sizes(names, names[0]),
            pieces={
                "front": Piece(edges={"side": Edge(length=one)}),
                "back": Piece(edges={"side": Edge(length=further)}),
            },
            seams={"side": Seam((Side((Span("front.side"),)), Side((Span("back.side"),), join=join)))},
        )
    )


def test_a_column_for_each_size_and_both_sides_in_one_row_where_they_are_the_same() -> None:
    assert walked(demo(), "panel") == [
        "  side 1  Front",
        "  side 2  Side front",
        "                    S      M      L",
        "  the waist to the under bust notch",
        "    both sides  100.0  100.0  100.0",
        "  the under bust notch to the over bust notch",
        "    both sides  130.6  134.7  138.7",
        "  the over bust notch to the armhole",
        "    both sides   70.0   70.0   70.0",
        "  whole seam",
        "    both sides  300.6  304.7  308.7",
    ]


def test_a_seam_of_one_interval_has_no_heading_over_it() -> None:
    assert walked(demo(), "shoulder") == [
        "  side 1  Front",
        "  side 2  Back, eased",
        "                        S      M      L",
        "  side 1            111.7  114.5  117.3",
        "  side 2            116.8  119.7  122.6",
        "  side 2 longer by    5.1    5.2    5.3",
    ]


def test_signs_only_where_now_one_side_is_longer_and_now_the_other() -> None:
    assert walked(taped({"S": 100, "M": 110}, {"S": 100.04, "M": 108}), "side")[3:] == [
        "  side 1             100.0  110.0",
        "  side 2             100.0  108.0",
        "  side 2 shorter by   same    2.0",
    ]
    signs = walked(taped({"S": 100, "M": 110, "L": 120}, {"S": 101, "M": 108, "L": 120}), "side")
    assert signs[-1].split() == [
        "side",
        "2",
        "longer",
        "(+),",
        "shorter",
        "(-)",
        "by",
        "+1.0",
        "-2.0",
        "same",
    ]


def test_fullness_is_told_in_times() -> None:
    full = taped({"S": 100, "M": 110}, {"S": 260, "M": 280}, Join("gathered"))
    assert walked(full, "side")[-1].split() == ["times", "as", "long", "2.60", "2.55"]


def _figure(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("name", ["sound.pattern.json", "faulty.pattern.json"])
def test_every_difference_is_that_of_the_lengths_above_it(unit: str, name: str) -> None:
    nest = demo(unit, name)
    rows = [
        (parts[0], parts[1:])
        for line in walk_text("a", nest, nest.walks.values(), Paper(100)).splitlines()
        if len(parts := re.split(r"  +", line.strip())) == len(nest.sizes) + 1
    ]
    compared = 0
    for (_, one), (label, further), (by, differences) in zip(rows, rows[1:], rows[2:], strict=False):
        if re.fullmatch(r"side \d", label) and " by" in by:
            for a, b, said in zip(one, further, differences, strict=True):
                signed = _figure(b) - _figure(a)
                shown = Fraction(0) if said == "same" else _figure(said.lstrip("+-"))
                assert abs(signed) == shown
                assert not signed or "(+)" in by or ("longer" in by) is (signed > 0)
                compared += 1
    assert compared > 10


@pytest.mark.parametrize("width", [40, 55, 100])
def test_no_line_is_wider_than_the_paper(width: int) -> None:
    nest = demo()
    for text in (
        walk_text("a.json", nest, nest.walks.values(), Paper(width)),
        describe_text("a.json", nest, Paper(width)),
    ):
        assert max(map(len, text.splitlines())) <= width


def test_many_sizes_stand_in_blocks_and_none_is_missing() -> None:
    sizes = {f"size {k}": 100.0 + k for k in range(30)}
    lines = walked(taped(sizes, sizes), "side", 60)
    heads = [line for line in lines if line.strip().startswith("size ")]
    assert len(heads) > 3
    assert re.findall(r"size \d+", " ".join(heads)) == list(sizes)
    figures = " ".join(line for line in lines if "both sides" in line)
    assert re.findall(r"\d+\.\d", figures) == [f"{length:.1f}" for length in sizes.values()]


def test_names_from_a_file_cannot_steer_the_terminal() -> None:
    sizes = {"S\x1b[2J": 100.0, "M" * 500: 110.0}
    nest = taped(sizes, sizes)
    for text in (
        walk_text("a\x1b.json", nest, nest.walks.values(), Paper()),
        describe_text("a\x1b.json", nest, Paper()),
    ):
        assert "\x1b" not in text
        assert max(len(line) for line in text.splitlines() if "M" * 500 not in line) <= 80


def test_the_opening_counts_and_names_the_unit(cases: Path) -> None:
    nest = jobs.describe(jobs.load(cases / "two_panel_skirt.pattern.json"))
    assert "2 pieces, 1 seam; lengths in mm" in describe_text("a", nest, Paper())
    assert "lengths in inches" in describe_text("a", demo("in"), Paper())
