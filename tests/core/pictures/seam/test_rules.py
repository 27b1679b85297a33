"""Each rule of the pictures with a case that follows it, and one beside it."""

from __future__ import annotations

import pytest
import storm_petrel
from cards import marks, text_boxes
from strips import CASES, HOSTILE, Cloth, document, pictured, side
from svgpathtools import parse_path

from notchwork.pictures import Picture
from notchwork.pictures.picture import MM


def card(name: str) -> Picture:
    return pictured(CASES[name])


def said(picture: Picture, kind: str = "") -> list[str]:
    return [mark.said for mark in marks(picture, "text", kind)]


def _sentences(picture: Picture) -> str:
    return " ".join(mark.said for mark in marks(picture, "text") if not mark.kinds).replace("\u00a0", " ")


def ways(picture: Picture, kind: str) -> list[int]:
    """Where areas of a look hang: +1 below the seam line, -1 above."""
    found = []
    for mark in marks(picture, "path", kind):
        ys = [part.point(0.5).imag for part in parse_path(mark.d)]
        found.append(1 if max(ys, key=abs) > 0 else -1)
    return found


def test_a_seam_that_sews_is_stitched_flat_without_a_tape() -> None:
    picture = card("plain")
    assert len(marks(picture, "path", "stitches")[0].d.split("M")) == 3
    assert not marks(picture, "rect", "tape")
    assert not said(picture, "figure")
    assert _sentences(picture) == "Sews together. Front and Back: 400.0 mm each."


def test_what_is_too_long_hangs_off_on_its_own_side_and_is_not_stitched() -> None:
    picture = card("longer")
    assert said(picture, "figure") == ["4.5 longer", "4.5 mm"]
    assert ways(picture, "off") == [1]
    assert len(marks(picture, "path", "stitches")[0].d.split("M")) == 2


def test_the_other_side_hangs_off_above() -> None:
    assert ways(pictured(side(398.5, 394)), "off") == [-1]


def test_a_slipped_notch_lies_like_an_s() -> None:
    picture = card("slipped")
    assert said(picture, "figure") == ["6.0 longer", "6.0 longer", "6.0 mm"]
    assert ways(picture, "off") == [1, -1]
    assert "The notches miss by" in picture.body


@pytest.mark.parametrize(("back", "off"), [(400.4, False), (401.7, True)])
def test_a_small_difference_lies_flat_and_its_figure_is_said(back: float, off: bool) -> None:
    picture = pictured(side(400, back))
    assert bool(said(picture, "figure")) == off
    assert f"{back - 400:.1f} mm longer" in _sentences(picture)


def test_wanted_ease_is_dotted_and_stitched_through() -> None:
    picture = card("cap")
    assert said(picture, "ease") == ["5.4 ease", "9.4 ease"]
    assert len(marks(picture, "path", "wanted")) == 2
    assert len(marks(picture, "path", "stitches")[0].d.split("M")) == 5
    assert any("grey = wanted, 11.0 to 17.0" in words for words in said(picture, "muted"))


def test_too_much_ease_is_hatched_beyond_what_is_wanted() -> None:
    picture = card("cap too much")
    assert said(picture, "figure") == ["6.0 ease", "20.0 ease", "9.0 mm too much"]
    assert len(marks(picture, "path", "wanted")) == len(marks(picture, "path", "off")) == 2


def test_too_little_ease_shows_where_cloth_should_hang() -> None:
    picture = card("cap too little")
    assert said(picture, "figure") == ["too flat", "too flat", "5.0 mm too little"]
    assert len(marks(picture, "path", "missing")) == 2
    assert marks(picture, "rect", "gone")


def test_cloth_that_may_not_be_eased_is_off_beside_ease_that_is_wanted() -> None:
    picture = card("cap below")
    assert said(picture, "ease") == ["5.4 ease", "9.4 ease"]
    assert said(picture, "figure") == ["4.0 longer", "4.0 mm"]


def test_ease_that_nobody_stated_is_no_fault() -> None:
    picture = card("ease not stated")
    assert said(picture, "ease") == ["8.0 ease"]
    assert "8.0 mm to ease in" in _sentences(picture)


def test_a_side_that_is_too_short_to_be_eased_lets_the_other_hang() -> None:
    assert ways(card("short where eased"), "off") == [-1]


def test_gathers_are_waves_with_pins_through_all_layers() -> None:
    picture = card("gathered off")
    assert {"1", "2a–2b", "3"} <= set(said(picture, "strong"))
    assert said(picture, "figure")[:2] == ["× 1.90 flat", "× 3.20 full"]
    assert len(marks(picture, "path", "wave")) == 6
    assert len(marks(picture, "rect", "off")) == 2 + 2  # in the picture, and on the scale of fullness
    pins = marks(picture, "path", "pin")[0]
    lowest = max(mark.y + mark.number("y") for mark in marks(picture, "text") if "flat" in mark.said)
    assert max(float(part.partition("V")[2]) for part in pins.d.split("M")[1:]) + pins.y > lowest - 16.0


def test_a_wave_is_as_long_as_its_cloth_to_the_scale_of_the_seam() -> None:
    picture = card("gathered")
    waves = [parse_path(mark.d) for mark in marks(picture, "path", "wave")]
    for path in waves:
        drawn = sum(part.length() for part in path)
        assert drawn / abs(path[-1].end - path[0].start) == pytest.approx(2.6, rel=2e-3)


def test_wanted_gathers_say_how_full_they_are() -> None:
    picture = card("gathered")
    assert said(picture, "muted").count("× 2.60") == 3
    assert not said(picture, "figure")


def test_a_stretched_side_waves_the_side_that_it_is_sewn_to() -> None:
    picture = card("stretched")
    assert len(marks(picture, "path", "wave-one")) == 1
    assert not marks(picture, "path", "wave")
    off = said(card("stretched off"), "figure")
    assert [words.rpartition(" ")[2] for words in off if "×" in words] == ["tight", "loose"]


def test_pleats_are_folded_in_where_they_lie() -> None:
    picture = card("pleats")
    (mark,) = marks(picture, "path", "pleat")
    assert mark.d.count("M") == 4
    assert picture.title.endswith(": sews")
    assert "Z: a pleat, folded in" in " ".join(said(picture, "muted"))


def test_a_ring_goes_on_at_both_ends() -> None:
    picture = card("cap")
    assert "ring" in said(picture, "muted")
    (mark,) = marks(picture, "path", "on")
    assert mark.d.count("M") == 4
    assert not marks(card("plain"), "path", "on")


def test_a_side_that_runs_the_wrong_way_is_not_pinned() -> None:
    picture = pictured(storm_petrel.faulty(), "lining_side")
    assert len(marks(picture, "path", "cross")) >= 2
    assert marks(picture, "circle", "turn")
    assert not marks(picture, "path", "stitches")
    assert not marks(picture, "path", "off")
    assert said(picture, "muted")[0].startswith("S M L")
    lines = [parse_path(mark.d)[0] for mark in marks(picture, "path", "cross")]
    assert lines[0].start.real < lines[0].end.real
    assert lines[-1].start.real > lines[-1].end.real


def test_notches_in_another_order_cross_there_alone() -> None:
    picture = card("crossed")
    assert len(marks(picture, "path", "cross")) == 2
    assert not marks(picture, "circle", "turn")


def test_a_notch_without_partner_is_hollow_and_has_no_pin() -> None:
    picture = card("lost")
    assert said(picture, "strong").count("?") == 3
    assert len(marks(picture, "path", "lost")) == 2
    assert marks(picture, "path", "pin")[0].d.count("M") == 3


def test_every_size_has_a_strip_and_a_row() -> None:
    picture = card("sizes")
    assert said(picture, "strong") == ["S", "M", "L", "S", "equal", "M", "equal", "L"]
    assert said(picture, "figure") == ["4.5 longer", "4.5 mm"]
    assert "S and M sew." in picture.says


def test_many_sizes_that_sew_alike_share_a_strip() -> None:
    picture = card("seven sizes")
    assert said(picture, "strong")[:3] == ["34–42", "44", "46"]
    assert "7 sizes" in said(picture, "muted")


def test_sizes_that_are_off_the_other_way_are_called_so() -> None:
    picture = card("both ways")
    assert said(picture, "figure")[:2] == ["4.0 longer", "5.0 longer"]
    assert ways(picture, "off") == [-1, 1]
    assert "4.0 mm, Front" in said(picture, "figure")


def _bar(picture: Picture) -> float:
    (bar,) = marks(picture, "rect", "bar")
    return bar.number("width") * MM


def test_the_tape_is_life_size() -> None:
    """At 96 px an inch, as CSS has it: https://www.w3.org/TR/css-values-3/#absolute-lengths."""
    assert _bar(card("longer")) == pytest.approx(4.5, abs=0.01)
    assert _bar(card("inches")) == pytest.approx(25.4 * 3 / 16, abs=0.01)


def test_a_tape_has_a_tick_for_every_mm_and_numbers_that_go_on() -> None:
    picture = card("80 mm")
    tape = marks(picture, "rect", "tape")
    assert len(tape) == 1
    assert tape[0].number("width") * MM == pytest.approx(80.0, abs=0.01)
    assert [words for words in said(picture, "end") if words.isdigit()] == [str(k) for k in range(10, 81, 10)]
    ticks = max(marks(picture, "path", "tick"), key=lambda mark: len(mark.d))
    assert ticks.d.count("v") == 80 + 16 + 8


def test_a_tape_that_does_not_fit_is_torn_once() -> None:
    picture = card("120 mm")
    assert len(marks(picture, "rect", "tape")) == 2
    numbers = [int(words) for words in said(picture, "end") if words.isdigit()]
    assert numbers == sorted(numbers)
    assert numbers[-1] == 120
    assert max(mark.number("x") + mark.number("width") for mark in marks(picture, "rect", "tape")) <= 336.1


def test_a_tall_bulge_is_laid_as_several() -> None:
    (mark,) = marks(card("80 mm"), "path", "off")
    assert mark.d.count("a") == 2


def test_much_too_long_cloth_is_a_wave() -> None:
    picture = card("80 mm in 100")
    assert marks(picture, "path", "wave")
    assert marks(picture, "rect", "off")
    assert said(picture, "figure")[0] == "80.0 longer"


def test_a_side_known_by_tape_has_no_cloth_and_its_figures_are_about() -> None:
    picture = card("by tape")
    assert said(picture, "figure") == ["about 6.0 longer", "about 6.0 mm"]
    assert any("by tape: no shape is known" in words for words in said(picture, "muted"))
    assert "fine by tape, to 5.0 mm" in " ".join(said(picture, "muted"))
    assert len(marks(picture, "path", "taped")) == 1


def test_a_dozen_pieces_are_numbered_with_a_key() -> None:
    picture = card("dozen")
    numbers = [str(number) for number in range(1, 13)]
    assert [words for words in said(picture, "mid") if words.isdigit()] == numbers
    assert "8 Gore 8" in " ".join(said(picture, "muted"))
    assert said(picture, "figure")[0] == "3.0 longer"
    assert any(words.startswith("Gore 8 too long by") for words in said(picture, "muted"))


def test_what_is_off_on_too_little_room_gets_a_sign() -> None:
    picture = card("small")
    assert len(marks(picture, "path", "gone")) == 1
    assert any("l5 5l-5 5l-5 -5z" in mark.d for mark in marks(picture, "path", "off"))
    assert not marks(card("longer"), "path", "gone")


def test_what_is_spread_too_thinly_to_show_hangs_off_as_a_whole() -> None:
    picture = card("spread thin")
    assert said(picture, "figure") == ["10.0 longer", "10.0 mm"]
    assert ways(picture, "off") == [1]


def test_figures_are_in_the_unit_of_the_pattern() -> None:
    assert said(card("inches"), "figure") == ["3/16 longer", "3/16 in"]
    assert said(card("ease in inches"), "ease") == ["1/4 ease"]


def test_a_finding_speaks_for_itself() -> None:
    picture = card("longer")
    assert _sentences(picture).startswith(
        "Back is 4.5 mm longer than Front (398.5 mm against 394.0 mm; up to 1.6 mm is fine)"
    )


def test_an_accepted_fault_lies_flat_and_says_why() -> None:
    stretched = side(394, 398.5)
    reason = "stretched into shape under the iron"
    stretched["accepted"] = [{"check": "seams/unequal-length", "seam": "it", "reason": reason}]
    picture = pictured(stretched)
    assert picture.title.endswith(": sews")
    assert not marks(picture, "path", "off")
    assert "Accepted on purpose" in picture.body


def test_parts_can_be_pointed_at_and_say_what_they_are() -> None:
    picture = card("longer")
    groups = [mark.element for mark in marks(picture, "g") if mark.element.get("aria-label")]
    assert [group.get("data-edges") for group in groups] == ["p0_0:bottom p1_0:top"] * 2
    assert all(group.get("data-seam") == "it" for group in groups)
    assert (
        groups[1]
        .get("aria-label")
        .endswith("Front 144.0, Back 148.5 mm: Back 4.5 mm longer; fine to 1.6 mm.")
    )
    hot = marks(picture, "rect", "hot")
    assert all(mark.number("height") >= 24.0 for mark in hot)


def test_hostile_names_are_words_and_nothing_else() -> None:
    picture = card("hostile")
    assert not marks(picture, "script")
    assert "<script" not in picture.body
    assert len(picture.body) < 10_000
    assert all("\u202e" not in mark.said for mark in marks(picture, "text"))
    assert any(HOSTILE[0][:10] in mark.said for mark in marks(picture, "text"))


def test_a_card_stays_small() -> None:
    """1.5 to 5 KB a card in one size, beside its text alternative."""
    for name in ("plain", "longer", "slipped", "cap", "by tape", "0.4 mm"):
        assert len(card(name).body) < 5_500, name


def _wide(pieces: int) -> int:
    """Bytes of a card of so many pieces on either side, all off, in ten sizes."""
    sizes = [str(size) for size in range(34, 54, 2)]
    sides = [
        [Cloth(f"{name} {k}", dict.fromkeys(sizes, 60.0 + longer)) for k in range(pieces)]
        for name, longer in (("Front", 0.0), ("Back", 2.0))
    ]
    return len(pictured(document(*sides, sizes=sizes)).body)


def test_a_card_grows_no_faster_than_what_it_shows() -> None:
    """Less than 1 KB for each interval in each size, most of it words."""
    few, many = _wide(10), _wide(20)
    assert many < 2.2 * few
    assert many < 1_000 * 20 * 10


@pytest.mark.parametrize(
    ("seam", "figure", "at"),
    [
        ("skirt_side", "hem: 6.0 against 10.0 mm", "starts"),
        ("shoulder", "neck: 190.7° against 180.0°", "ends"),
        ("lining_shoulder", "neck: 190.7° against 180.0°", "ends"),
    ],
)
def test_what_is_told_of_an_edge_beyond_the_end_has_its_sign_and_both_measures_there(
    seam: str, figure: str, at: str
) -> None:
    picture = pictured(storm_petrel.faulty(), seam)
    figures = [mark for mark in marks(picture, "text", "figure") if mark.said == figure]
    assert len(figures) == 3, "one in every size"
    assert len(marks(picture, "path", "sign-look")) == 4, "with that of the head"
    assert all((mark.x + mark.number("x") < 172.0) == (at == "starts") for mark in figures)
    assert f"Where it {at}: {figure}." in picture.says
    assert "S, M and L sew" not in picture.says
    assert figure not in said(pictured(storm_petrel.sound(), seam), "figure")


def test_fullness_beyond_what_is_wanted_that_is_not_told_is_said_to_be_let_pass() -> None:
    picture = pictured(storm_petrel.faulty(), "lower_flounce")
    assert not said(picture, "figure")
    assert [words for words in said(picture, "strong") if "let pass" in words] == ["2.05, let pass"]
    assert picture.says.count("× 2.05, which is let pass (wanted: 2.10 to 2.40 times).") == 1
    assert "let pass" not in pictured(storm_petrel.sound(), "lower_flounce").body


@pytest.mark.parametrize("longer", [34.06, 340.6, 1234.5])
def test_a_figure_of_fullness_stays_on_the_card_however_long_it_is(longer: float) -> None:
    gathered = {"kind": "gathered", "ratio": [1.5, 2.5]}
    picture = pictured(document([Cloth("Front", 100)], [Cloth("Back", 100 * longer)], joins=[gathered]))
    (box,) = [box for box in text_boxes(picture) if box[4] == f"{longer:.2f}"]
    assert box[2] <= 337.0


def test_a_sound_pattern_is_all_sound() -> None:
    petrel = storm_petrel.sound()
    for seam in ("armhole", "waist", "side"):
        assert pictured(petrel, seam).title.endswith(": sews")


def test_lengths_by_hand() -> None:
    """The longer side's arc over 144 mm is 148.5 mm long, by the scale of the seam: 394 mm on 328 px."""
    (mark,) = marks(card("longer"), "path", "off")
    arc = parse_path(mark.d)[0]
    assert arc.length(error=1e-6) == pytest.approx(148.5 * 328 / 394, rel=1e-3)
    assert abs(arc.end - arc.start) == pytest.approx(144 * 328 / 394, abs=0.02)
