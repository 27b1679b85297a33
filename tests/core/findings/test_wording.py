from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notchwork.findings import Angle, Count, Length, Percent, Ratio, listed, worded

LONGER = (
    "{longer} is {difference} longer than {shorter} ({a:bare} against {b:bare}; up to {fine:bare} is fine)."
)


def lengths(a: float, b: float, fine: float = 1.6) -> dict[str, object]:
    return {
        "longer": "Back",
        "shorter": "Front",
        "a": Length(a),
        "b": Length(b),
        "difference": Length(a - b),
        "fine": Length(fine),
    }


def test_millimetres_have_one_decimal() -> None:
    assert (
        worded(LONGER, lengths(416.5, 412.0))
        == "Back is 4.5 mm longer than Front (416.5 against 412.0; up to 1.6 is fine)."
    )


def test_centimetres_have_two() -> None:
    assert (
        worded(LONGER, lengths(416.5, 412.0), "cm")
        == "Back is 0.45 cm longer than Front (41.65 against 41.20; up to 0.16 is fine)."
    )


def test_inches_are_sixteenths_in_lowest_terms() -> None:
    words = worded(LONGER, lengths(16.375 * 25.4, 16.25 * 25.4), "in")
    assert words == "Back is 1/8 in longer than Front (16 3/8 against 16 1/4; up to 1/16 is fine)."


@pytest.mark.parametrize(
    ("unit", "words"), [("mm", "less than 0.1 mm"), ("cm", "less than 0.01 cm"), ("in", "less than 1/16 in")]
)
def test_what_rounds_to_nothing_is_never_nought(unit: str, words: str) -> None:
    assert worded("{d}", {"d": Length(0.04)}, unit) == words  # type: ignore[arg-type]
    assert worded("{d}", {"d": Length(-0.04)}, unit) == words  # type: ignore[arg-type]


def test_nothing_at_all_is_nought() -> None:
    assert worded("{d}", {"d": Length(0)}) == "0 mm"
    assert worded("{d}", {"d": Length(0)}, "in") == "0 in"


def test_different_lengths_that_would_print_alike_get_digits_that_tell_them_apart() -> None:
    assert (
        worded("{a} against {b}", {"a": Length(412.02), "b": Length(412.04)}) == "412.02 mm against 412.04 mm"
    )
    assert (
        worded("{a} against {b}", {"a": Length(25.4), "b": Length(25.61)}, "in") == "1 in against 1 1/64 in"
    )
    assert (
        worded("{off}, {fine} is fine", {"off": Length(1.61), "fine": Length(1.6)})
        == "1.61 mm, 1.60 mm is fine"
    )


def test_equal_lengths_print_alike() -> None:
    assert worded("{a} {b}", {"a": Length(412.0), "b": Length(412.00001)}) == "412.0 mm 412.0 mm"


@given(st.floats(0, 5000), st.floats(0.001, 1), st.sampled_from(["mm", "cm", "in"]))
def test_different_lengths_never_print_alike(a: float, more: float, unit: str) -> None:
    first, second = worded("{a}|{b}", {"a": Length(a), "b": Length(a + more)}, unit).split("|")  # type: ignore[arg-type]
    assert first != second


@given(st.floats(1 / 16, 500))
def test_inches_are_the_nearest_sixteenth(inches: float) -> None:
    words = worded("{a:bare}", {"a": Length(inches * 25.4)}, "in").split()
    total = sum(int(w.split("/")[0]) / int(w.split("/")[1]) if "/" in w else int(w) for w in words)
    assert abs(total - inches) <= 1 / 32 + 1e-9


def test_the_other_measures() -> None:
    values = {"a": Angle(2.25), "r": Ratio(2.6), "p": Percent(3), "n": Count(3)}
    assert worded("{a} {r} {p} {n}", values) == "2.2° 2.60 3.0 % 3"


def test_names_from_a_file_are_only_values() -> None:
    assert (
        worded("{piece} is wide.", {"piece": "Front {a.__class__} %s"}) == "Front {a.__class__} %s is wide."
    )


def test_a_tuple_is_listed() -> None:
    assert worded("{names}", {"names": ("Front", "Back", "Sleeve")}) == "Front, Back and Sleeve"
    assert worded("{all}", {"all": (Length(1), Length(2))}) == "1.0 mm and 2.0 mm"
    assert listed([]) == ""


def test_a_name_without_a_value_is_an_error() -> None:
    with pytest.raises(KeyError):
        worded("{missing}", {})


def test_an_infinite_measure_is_said_to_be_unknown() -> None:
    assert (
        worded("{a} {b}", {"a": Length(float("inf")), "b": Length(float("nan"))}, "in")
        == "unknown in unknown in"
    )


def test_a_figure_beyond_all_measure_is_told_in_a_word() -> None:
    assert worded("{a} {p}", {"a": Length(1e12), "p": Percent(1.7e308)}) == "1.0e+12 mm 1.7e+308 %"
