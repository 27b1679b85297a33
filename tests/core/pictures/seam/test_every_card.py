"""What holds of every card: of each case of the rules, and of every shipped pattern."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations, pairwise

import pytest
from cards import marks, text_boxes
from lxml import etree
from strips import CASES, pictured

from notchwork.checks import Verdict
from notchwork.checks.walk_words import interval_words
from notchwork.findings import Severity
from notchwork.pictures import Picture, standalone
from notchwork.pictures.laid import laid_in_sizes
from notchwork.pictures.told import told_of
from notchwork.sewing.names import capital

LENGTHS = (
    "seams/unequal-length",
    "seams/stations-do-not-meet",
    "seams/ease-not-as-stated",
    "sleeves/cap-ease",
)
LENGTHS += ("seams/fullness-not-as-stated", "sleeves/unequal-below-notches")


@pytest.fixture(scope="module", params=CASES)
def card(request: pytest.FixtureRequest) -> Picture:
    return pictured(CASES[request.param])


def _keeps_apart(picture: Picture) -> None:
    boxes = text_boxes(picture)
    for a, b in combinations(boxes, 2):
        apart = a[0] >= b[2] or b[0] >= a[2] or a[1] >= b[3] - 1.0 or b[1] >= a[3] - 1.0
        assert apart, (picture.key, a, b)
    for left, top, right, bottom, said in boxes:
        assert left > 0.0, said
        assert right <= 344.0 + 1.0, said
        assert top >= 0.0, said
        assert bottom <= picture.height, said


def test_words_keep_apart_and_on_the_card(card: Picture) -> None:
    _keeps_apart(card)


def test_words_keep_apart_on_every_shipped_pattern(cards_of_all: Mapping[str, Picture]) -> None:
    for picture in cards_of_all.values():
        _keeps_apart(picture)


def test_a_card_is_as_wide_as_a_phone_and_has_no_ids_of_its_own(card: Picture) -> None:
    assert card.width == 344.0
    root = etree.fromstring(standalone(card).encode())
    assert [e.get("id") for e in root.iter() if e.get("id")] == [
        f"{card.key}-t",
        f"{card.key}-d",
        "hatched",
        "dotted",
        "upright",
        "dots",
        "crossed",
    ]


def test_every_interval_is_in_the_text_alternative(
    looked_at: Verdict, cards_of_all: Mapping[str, Picture]
) -> None:
    """In one size at least, by the names of its stations."""
    nest = looked_at.nest
    assert nest is not None
    for ident, walk in nest.walks.items():
        for comparison in walk.others:
            if ident in nest.wrong_way or comparison.pairing.crossed:
                continue
            for interval in comparison.intervals:
                first, second = interval_words(nest, walk, interval)
                assert f"{capital(first)} to {second}: " in cards_of_all[ident].says


def test_what_sews_has_no_hatching_and_what_does_not_has(
    looked_at: Verdict, cards_of_all: Mapping[str, Picture]
) -> None:
    nest = looked_at.nest
    assert nest is not None
    for ident, picture in cards_of_all.items():
        loud = [
            graded.rule.id
            for graded in looked_at.at_least(Severity.WARNING)
            if any(place.seam == ident for place in graded.places)
        ]
        hatched = 'class="off' in picture.body or 'class="missing' in picture.body
        assert hatched == any(rule in LENGTHS for rule in loud), (ident, loud)
        assert ('class="cross"' in picture.body) == any(
            rule in ("seams/wrong-way", "seams/stations-cross") for rule in loud
        )
        sign = picture.title.rpartition(": ")[2]
        assert sign == (
            "sews" if not loud else "look" if "warning" in _words(looked_at, ident) else "will not sew"
        )


def _words(verdict: Verdict, seam: str) -> str:
    found = [g for g in verdict.at_least(Severity.WARNING) if any(place.seam == seam for place in g.places)]
    return max(g.severity for g in found).word


def test_lengths_are_to_one_scale(looked_at: Verdict, cards_of_all: Mapping[str, Picture]) -> None:
    """From pin to pin a strip is as long as its bays, by one scale in the whole card."""
    nest = looked_at.nest
    assert nest is not None
    for ident, picture in cards_of_all.items():
        walk, told = nest.walks[ident], told_of(nest, looked_at, ident)
        chords = [
            [bay.chord for bay in laid.bays]
            for comparison in walk.others
            for laid in laid_in_sizes(nest, walk, comparison, told)
            if laid.known and laid.order == "right"
        ]
        strips = []
        for mark in marks(picture, "path", "pin"):
            xs = [float(part.partition(" ")[0]) for part in mark.d.split("M")[1:]]
            if len(xs) > 1 and mark.d.count("V") > 1:
                drawn = [b - a for a, b in pairwise(xs)]
                strips.append([sum(drawn) / sum(bays) for bays in chords if _in_scale(drawn, bays)])
        if strips:
            assert any(
                all(any(abs(other - scale) < 0.001 * scale for other in strip) for strip in strips)
                for scale in strips[0]
            ), (ident, strips)


def _in_scale(drawn: list[float], bays: list[float]) -> bool:
    if len(drawn) != len(bays):
        return False
    scale = sum(drawn) / sum(bays)
    return all(abs(a - b * scale) < 0.02 for a, b in zip(drawn, bays, strict=True))
