"""Words on pages: they can be searched, and nothing a file says can steer the page."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from pdf_files import data_of, named, needs, opened, run, sheets_of, square, streams, text_of, written

from notchwork.checks import Names, hint, judged, message
from notchwork.drawing import Group, Text
from notchwork.findings import NotchworkError
from notchwork.model import Pattern

POPPLER = needs("pdftotext", "poppler-utils")


def told(words: str, **options: str) -> list[tuple[str, str]]:
    done = written(named(words), **options)
    pattern = Pattern("1.0", {})
    names = Names(pattern)
    return [
        (graded.rule.id, f"{message(graded, names)} {hint(graded, names)}")
        for graded in judged(done.findings, pattern)
    ]


def font_file(path: Path, letters: str, restricted: bool = False) -> Path:
    """A font made for a test, whose letters are boxes."""
    builder = FontBuilder(1000, isTTF=True)
    names = [".notdef", *(f"u{ord(letter):04X}" for letter in letters)]
    builder.setupGlyphOrder(names)
    builder.setupCharacterMap({ord(letter): f"u{ord(letter):04X}" for letter in letters})
    pen = TTGlyphPen(None)
    pen.moveTo((50, 0))
    for corner in ((50, 700), (650, 700), (650, 0)):
        pen.lineTo(corner)
    pen.closePath()
    builder.setupGlyf({name: pen.glyph() for name in names})
    builder.setupHorizontalMetrics(dict.fromkeys(names, (700, 50)))
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupNameTable({"familyName": "Boxes", "styleName": "Regular", "psName": "Boxes"})
    builder.setupOS2(fsType=2 if restricted else 0)
    builder.setupPost()
    builder.save(path)
    return path


@pytest.mark.debian("poppler-utils")
@POPPLER
@pytest.mark.parametrize(
    "words",
    ["Front", "Ärmel Größe №5 – ½ “x”", "Вытачка", "Μανίκι", "a (b) \\ c ) Tj ET", "<~>% /OC BDC EMC Q Q"],
)
def test_words_are_found_by_another_program(words: str, tmp_path: Path) -> None:
    assert words in text_of(data_of(named(words)), tmp_path / "a.pdf")
    assert told(words) == []


@pytest.mark.debian("poppler-utils")
@needs("pdffonts", "poppler-utils")
def test_fonts_are_embedded_in_part_with_what_their_letters_mean(tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    group = Group("a", (square(),), texts=(Text(0j, "bold", 5.0, "name"), Text(9j, "plain", 5.0, "note")))
    path.write_bytes(data_of(sheets_of(group)))
    rows = run("pdffonts", path).splitlines()[2:]
    assert len(rows) == 2
    for row in rows:
        assert "DejaVuSans" in row
        assert row.split()[-5:-2] == ["yes", "yes", "yes"]
    assert len(path.read_bytes()) < 40_000


def test_a_name_cannot_leave_its_string() -> None:
    for words in (") Tj ET Q", "> Tj", "\\", "\n1 0 0 RG\n"):
        *_, form = streams(data_of(named(words)))
        shown = [line for line in form.splitlines() if line.endswith("Tj")]
        assert all(set(line.partition("<")[2].partition(">")[0]) <= set("0123456789ABCDEF") for line in shown)
        assert form.count("BT") == form.count("ET") == 1
        assert "1 0 0 RG" not in form


@pytest.mark.debian("poppler-utils")
@POPPLER
def test_control_characters_and_half_characters_are_no_letters(tmp_path: Path) -> None:
    found = text_of(data_of(named("a\x00b\x1b[31mc\u202ed\ud800e\tf")), tmp_path / "a.pdf")
    assert "ab[31mcd\ufffde f" in found


def test_letters_that_no_font_has_are_told_with_their_words() -> None:
    ((rule, said),) = told("袖 sleeve")
    assert rule == "pdf/missing-letters"
    assert "“袖 sleeve”" in said
    assert "-O font=FILE" in said


@pytest.mark.debian("poppler-utils")
@POPPLER
def test_a_font_that_is_given_draws_what_ours_lack(tmp_path: Path) -> None:
    font = font_file(tmp_path / "boxes.ttf", "袖前")
    assert told("袖 sleeve", font=str(font)) == []
    assert "袖 sleeve" in text_of(data_of(named("袖 sleeve"), font=str(font)), tmp_path / "a.pdf")
    ((rule, said),) = told("袖後", font=str(font))
    assert rule == "pdf/missing-letters"
    assert "後" in said


@pytest.mark.parametrize("words", ["שרוול", "كم", "बाजू"])
def test_scripts_that_are_not_shaped_are_told(words: str) -> None:
    assert "pdf/unshaped" in [rule for rule, _ in told(words)]


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda path: None, "could not be read"),
        (lambda path: path.write_bytes(b"not a font"), "no font"),
        (lambda path: path.write_bytes(b"\x00\x01\x00\x00" + bytes(40)), "damaged"),
        (lambda path: font_file(path, "a", restricted=True), "does not allow"),
    ],
)
def test_a_font_that_cannot_be_used_is_refused_in_words(make: object, says: str, tmp_path: Path) -> None:
    path = tmp_path / "a.ttf"
    make(path)  # type: ignore[operator]
    with pytest.raises(NotchworkError, match=says):
        written(named("a"), font=str(path))


@pytest.mark.debian("poppler-utils")
@POPPLER
def test_hostile_titles_and_names(tmp_path: Path) -> None:
    for words in ("(((", "\\", "🧵 dress", "x" * 10_000, "\U0010ffff", "]]>"):
        data = data_of(named(words, title=words, attached=b"{}"))
        path = tmp_path / "a.pdf"
        path.write_bytes(data)
        run("pdfinfo", path)
        (name,) = opened(data).attachments
        assert len(name) <= 100
        assert name.endswith(".pattern.json")
    assert told("🧵 dress")[0][0] == "pdf/missing-letters"


def test_words_on_a_line_have_white_below_them() -> None:
    group = Group("a", (square(),), texts=(Text(50 + 0j, "M", 5.0, "size-name", "middle"),))
    *_, form = streams(data_of(sheets_of(group)))
    assert form.index("1 g") < form.index("h f") < form.index("0 g") < form.index("BT")
