"""Profiles of devices."""

from __future__ import annotations

import math
import os
import re
from pathlib import Path

import pytest

from notchwork.findings import NotchworkError, UnknownName
from notchwork.pages import Paper, papers
from notchwork_plugins.hpgl.device import UNIT
from notchwork_plugins.hpgl.options import DEFAULT, OPTIONS
from notchwork_plugins.hpgl.profile import described, device, names
from notchwork_plugins.hpgl.settings import settings

OWN = """
title = "cutter in the attic"
source = "its own handbook"
language = "HP-GL"
along = "roll"
across = 580
advance = "PG"
knife = true
[pens]
cut = 1
draw = 2
[speed]
cut = 10
draw = 40.5
[force]
cut = 80
"""


@pytest.mark.parametrize("name", names())
def test_every_device_that_comes_along_is_sound(name: str) -> None:
    found = device(name)
    assert found.name == name
    assert len(found.source) > 20
    assert found.across <= found.along
    assert found.largest == 32_767  # HP PCL 5 Technical Reference Manual, part II, p. 17-11


def test_the_default_is_one_of_them() -> None:
    assert DEFAULT in names()
    assert settings(Paper(), {}).device == device(DEFAULT)


def test_the_option_names_them_all() -> None:
    (option,) = (option for option in OPTIONS if option.name == "device")
    assert re.findall(r"[a-z]+-[a-z0-9]+", option.help) == list(names())


def test_the_small_plotter_reaches_its_documented_limits() -> None:
    """11040 × 7721 units with A4 loaded, as documented for a small pen plotter; a unit is 0.025 mm."""
    found = device("pen-a4")
    assert (found.along, found.across) == pytest.approx((276.0, 193.025))
    assert found.origin == "lower left"


def test_numbers_reach_819_mm_and_twice_as_far_about_a_centre() -> None:
    """±32,767 plotter units of 0.025 mm (HP PCL 5 Technical Reference Manual, part II, p. 17-11 and 17-20)."""
    assert device("pen-a4").reach(UNIT) == pytest.approx(819.175)
    assert device("pen-a0").reach(UNIT) == pytest.approx(1638.35)


def test_ones_own_profile(tmp_path: Path) -> None:
    path = tmp_path / "attic.toml"
    path.write_text(OWN, encoding="utf-8")
    found = device(str(path))
    assert (found.name, found.title, found.along, found.across) == (
        "attic",
        "cutter in the attic",
        math.inf,
        580.0,
    )
    assert (found.speed, found.force) == ((10.0, 40.5), (80.0, None))
    assert (found.x_along, found.text, found.largest) == (True, "strokes", 32_767)


def test_the_profile_that_the_readme_shows() -> None:
    readme = (Path(__file__).parents[3] / "README.md").read_text(encoding="utf-8")
    (shown,) = re.findall(r"```toml\n(.*?)```", readme, re.DOTALL)
    found = described("attic", "attic.toml", shown.encode())
    assert (found.across, found.knife, found.cut, found.draw, found.force) == (
        580.0,
        True,
        1,
        2,
        (80.0, None),
    )
    for name in names():
        assert f"`{name}`" in readme


@pytest.mark.parametrize(
    ("change", "place"),
    [
        (("across = 580", ""), "across"),
        (("across = 580", 'across = "roll"'), "across"),
        (("across = 580", "across = 3"), "across"),
        (("across = 580", 'across = "x units"'), "across"),
        (("across = 580", "across = true"), "across"),
        (("across = 580", "across = nan"), "across"),
        (("across = 580", f'across = "{"9" * 400} units"'), "across"),
        (("across = 580", f'across = "{"9" * 5000} units"'), "across"),
        (('"HP-GL"', '"PCL"'), "language"),
        (('"PG"', '"FR"'), "advance"),
        (("knife = true", 'knife = "yes"'), "knife"),
        (("knife = true", 'knife = true\norigin = "centre"'), "origin"),
        (("knife = true", "largest = 1e99"), "largest"),
        (("knife = true", "largest = 1000"), "largest"),
        (("in the attic", "attic" * 100), "title"),
        (("knife = true", "colour = 3"), "colour"),
        (("draw = 2", "draw = 1"), "pens"),
        (("draw = 2", "draw = 2\ntext = 3"), "pens.text"),
        (("cut = 1\n", ""), "pens.cut"),
        (("cut = 10", "cut = -3"), "speed.cut"),
        (('title = "cutter in the attic"', ""), "title"),
        (('source = "its own handbook"', "source = 3"), "source"),
        (("[force]\ncut = 80", ""), None),
    ],
)
def test_what_is_wrong_with_a_profile_is_told_with_its_place(
    change: tuple[str, str], place: str | None
) -> None:
    text = OWN.replace(*change)
    assert text != OWN
    if place is None:
        described("own", "own.toml", text.encode())
        return
    with pytest.raises(NotchworkError) as caught:
        described("own", "own.toml", text.encode())
    assert caught.value.what == f"own.toml, {place}"
    assert caught.value.repair


@pytest.mark.parametrize(
    "content", [b"\xff\xfe", b"title = ", b"x" * 30_000, b"[" * 9_000, b"", b"largest = " + b"9" * 5000]
)
def test_what_is_no_profile_is_refused(content: bytes) -> None:
    with pytest.raises(NotchworkError):
        described("own", "own.toml", content)


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    with pytest.raises(NotchworkError, match="no file"):
        device(str(tmp_path / "pipe.toml"))


def test_a_profile_that_is_not_there_and_a_device_that_is_unknown(tmp_path: Path) -> None:
    with pytest.raises(NotchworkError, match="cannot be read"):
        device(str(tmp_path / "none.toml"))
    with pytest.raises(UnknownName, match="pen-a4"):
        device("pen-a5")


@pytest.mark.parametrize(
    ("name", "paper", "across", "along"),
    [
        ("roll-36in", "", 904.4, math.inf),
        ("roll-36in", "24in roll", 599.6, math.inf),
        ("roll-36in", "A1", 584.0, 831.0),
        ("pen-a0", "A2", 410.0, 584.0),
        ("pen-a4", "A0", 193.025, 276.0),
        ("pen-a4", "A4+Letter", 193.025, 269.4),
    ],
)
def test_paper_and_device_both_hold(name: str, paper: str, across: float, along: float) -> None:
    """5 mm are left free at each edge of a paper; common practice, no source."""
    stated = settings(Paper(papers(paper) if paper else ()), {"device": name})
    assert (stated.across, stated.along) == pytest.approx((across, along))


@pytest.mark.parametrize(
    ("paper", "options"),
    [
        (Paper(layout="projector"), {}),
        (Paper(bold=True), {}),
        (Paper(overlap=10.0), {}),
        (Paper(join="butt"), {}),
        (Paper(margin=3.0), {}),
        (Paper(papers("60x60")), {}),
        (Paper(), {"text": "big"}),
        (Paper(), {"overcut": "-1"}),
        (Paper(), {"overcut": "much"}),
        (Paper(), {"overcut": "nan"}),
        (Paper(), {"overcut": "0.5"}),  # a pen plotter has no knife
    ],
)
def test_what_cannot_be_is_refused(paper: Paper, options: dict[str, str]) -> None:
    with pytest.raises(NotchworkError):
        settings(paper, options)
