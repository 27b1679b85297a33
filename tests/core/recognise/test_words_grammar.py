"""What short texts say. The wording is that of printed home sewing patterns: common practice, no source."""

from __future__ import annotations

import pytest

from notchwork.recognise.words.cut_words import Order, cut_orders
from notchwork.recognise.words.grammar import allowance_of, edge_name_of, length_in, says_fold, says_grain
from notchwork.recognise.words.label_words import Label, Stated, join_of, label_of


@pytest.mark.parametrize(
    ("words", "orders"),
    [
        ("cut 2 lining, 1 on fold", (Order(2, None, "lining"), Order(1, on_fold=True))),
        ("Cut 1 pair", (Order(2, True),)),
        ("Cut 2 pairs of main fabric", (Order(4, True, "main"),)),
        ("2x", (Order(2),)),
        ("x2", (Order(2),)),
        ("Cut 4 alike", (Order(4, False),)),
        ("Cut on fold", (Order(1, on_fold=True),)),
        ("1x lining 2x interfacing", (Order(1, None, "lining"), Order(2, None, "interfacing"))),
        ("2 × Washed linen, in pairs", (Order(2, True, "Washed linen"),)),
        ("2 × Washed linen, turned over", (Order(2, None, "Washed linen", turned=True),)),
        ("2x zuschneiden im Bruch", (Order(2, on_fold=True),)),
        ("couper 2 fois au pli", (Order(2, on_fold=True),)),
        ("knip 2 keer voering", (Order(2, None, "voering"),)),
    ],
)
def test_cut_orders(words: str, orders: tuple[Order, ...]) -> None:
    assert cut_orders(words) == orders


@pytest.mark.parametrize(
    "words",
    [
        "3 x 4 inches",
        "10 x 4 x 3 inches usable space",
        "cut 10 mm away",
        "- 6 rows",
        "5mm straight stitch",
        "Inferior panel",
        "12",
        "zipper",
    ],
)
def test_what_is_no_cut_order(words: str) -> None:
    assert cut_orders(words) == ()


@pytest.mark.parametrize(
    ("words", "mm"),
    [
        ("15 mm allowance", 15.0),
        ("seam allowance 5/8 in", 15.875),
        ('SA 1 1/2"', 38.1),
        ("Nahtzugabe 1,5 cm", 15.0),
    ],
)
def test_allowances(words: str, mm: float) -> None:
    assert allowance_of(words) == pytest.approx(mm)


def test_no_allowance_and_no_word_of_it() -> None:
    assert allowance_of("no seam allowance included") == 0.0
    assert allowance_of("seam allowance") is None
    assert allowance_of("15 mm") is None


def test_a_unit_is_no_part_of_a_word() -> None:
    assert length_in("cut 2 inside") is None
    assert length_in("2.5 in") == pytest.approx(63.5)


@pytest.mark.parametrize(
    "words", ["fold", "Place on fold", "ON FOLD", "Stoffbruch", "au pli", "lengthwise fold"]
)
def test_a_fold(words: str) -> None:
    assert says_fold(words)


@pytest.mark.parametrize(
    "words", ["Fold at 3 inches", "fold 1 cm and stitch", "folded twice", "Cut 1 on fold, lining"]
)
def test_what_says_more_than_fold_is_none(words: str) -> None:
    assert not says_fold(words)


def test_grain() -> None:
    assert all(says_grain(w) for w in ("grain", "GRAINLINE", "straight of grain", "Fadenlauf", "droit-fil"))
    assert not says_grain("grainy")


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("anterior edge", "anterior"),
        ("CF", "center front"),
        ("hem", "hem"),
        ("side seam", "side seam"),
        ("Saum", "Saum"),
        ("Inferior panel", None),
        ("superior section", None),
        ("This edge is sewn into the seam of the panel", None),
    ],
)
def test_edge_names(words: str, name: str | None) -> None:
    assert edge_name_of(words) == name


@pytest.mark.parametrize(
    ("words", "label"),
    [
        ("A", Label("A")),
        ("b", Label("b")),
        ("12", Label("12")),
        ("AB", Label("AB")),
        ("B2", Label("B2")),
        ("A side 2", Label("A", 2)),
        ("A ease 25 mm", Label("A", None, Stated("eased", 25.0))),
        ("C (gather 2)", Label("C", None, Stated("gathered", 2.0))),
        ("A side 2, ease 1 cm", Label("A", 2, Stated("eased", 10.0))),
    ],
)
def test_labels(words: str, label: Label) -> None:
    assert label_of(words) == label


@pytest.mark.parametrize(
    "words", ["CF", "CB", "L", "R", "hem", "cut", "2x", "15 mm", "1000D", "A nice bag", "in", "Top"]
)
def test_what_makes_no_seam(words: str) -> None:
    assert label_of(words) is None


def test_joins() -> None:
    assert join_of("ease 25 mm") == Stated("eased", 25.0)
    assert join_of("gathered") == Stated("gathered")
    assert join_of("gather this edge before you sew it") is None
    assert join_of("front") is None
