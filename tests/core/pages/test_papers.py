"""Papers by name and by size, against the standards they come from."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from notchwork.findings import NotchworkError
from notchwork.pages import Size, papers


def one(text: str) -> Size:
    (size,) = papers(text)
    return size


def test_the_series_is_halved_from_a_square_metre() -> None:
    """ISO 216:2007: A0 has 1 m², sides are in the ratio of the square root of 2, each size is half of the one before, in whole mm."""
    first = one("A0")
    assert first.wide * first.tall == pytest.approx(1e6, rel=1e-3)
    series = [one(f"A{k}") for k in range(6)]
    assert all(size.tall / size.wide == pytest.approx(math.sqrt(2), rel=5e-3) for size in series)
    for before, size in pairwise(series):
        assert (size.wide, size.tall) == (math.floor(before.tall / 2), before.wide)


@pytest.mark.parametrize(
    ("name", "points"),
    [
        # 72 points to the inch (ISO 32000-1, 8.3.2.3), sizes of ANSI/ASME Y14.1, from memory of it.
        ("Letter", (612, 792)),
        ("ARCH E", (2592, 3456)),
        ("ANSI E", (2448, 3168)),
        ("Tabloid", (792, 1224)),
        # From ISO 216 by 72/25.4, rounded to a thousandth.
        ("A4", (595.276, 841.890)),
        ("A0", (2383.937, 3370.394)),
    ],
)
def test_sizes_in_points(name: str, points: tuple[float, float]) -> None:
    size = one(name)
    assert (size.wide * 72 / 25.4, size.tall * 72 / 25.4) == pytest.approx(points, abs=5e-4)


@pytest.mark.parametrize("text", ["a4", "A4", " A 4 ", "archE", "arch e", "36IN ROLL", "36in roll"])
def test_names_in_any_case(text: str) -> None:
    assert one(text).wide > 0


@pytest.mark.parametrize(
    ("text", "wide", "tall"),
    [
        ("300x400 mm", 300, 400),
        ("300 x 400", 300, 400),
        ("30×40cm", 300, 400),
        ("11 in x 17 in", 279.4, 431.8),
        ('11"x17"', 279.4, 431.8),
        ("11x17in", 279.4, 431.8),
        ("29,7x42 cm", 297, 420),
        ("42 in roll", 1066.8, math.inf),
        ("roll 1067 mm", 1067, math.inf),
    ],
)
def test_by_size(text: str, wide: float, tall: float) -> None:
    assert (one(text).wide, one(text).tall) == pytest.approx((wide, tall))


def test_several_at_once() -> None:
    assert [size.name for size in papers("a4+LETTER")] == ["A4", "Letter"]


@pytest.mark.parametrize(
    "text", ["", "A4+", "quarto", "300", "300x", "x400", "1x1 mm", "90000x300", "roll", "0 in roll"]
)
def test_what_is_no_paper_is_refused_with_what_to_write(text: str) -> None:
    with pytest.raises(NotchworkError) as caught:
        papers(text)
    assert caught.value.repair
