"""Bytes to text: byte order marks, code pages that are stated, wrong or missing, and letters written as escapes."""

from __future__ import annotations

import pytest
from dxf_files import EOF, block, dxf, section, source, text
from hypothesis import given
from hypothesis import strategies as st

from notchwork.findings import UnknownName
from notchwork_plugins.dxf.file import File, Unreadable, opened

# Words on patterns, in the languages of people who cut them; our own.
WORDS = {
    "gbk": ["前片", "后片", "袖子", "领", "口袋", "腰头", "里布", "大身", "门襟", "面料", "帽子", "下摆", "裤子", "松紧带", "前中线"],
    "cp950": ["前片", "後片", "袖子", "領片", "腰頭", "左前片", "裡布", "門襟", "尺碼", "下擺", "羅紋", "袖口貼邊"],
    "cp932": ["前身頃", "後ろ身頃", "袖", "衿", "ポケット", "見返し", "ベルト", "カフス", "裏地", "スカート", "フード"],
    "cp949": ["앞판", "뒤판", "소매", "칼라", "주머니", "허리단", "안감", "단추", "고무줄", "중심선", "어깨"],
    "cp1252": ["Rückenteil", "Ärmel", "Größe M", "Dos côté", "Pièce", "Bœuf", "Años", "½ Rücken", "90°", "à gauche"],
    "cp1251": ["Перед", "Спинка", "Рукав", "Полочка левая", "Карман", "ПЕРЕД", "воротник", "Размер 44"],
}  # fmt: skip


def with_texts(*said: str, encoding: str = "ascii", header: tuple[tuple[int, object], ...] = ()) -> bytes:
    start = [section("HEADER", *header)] if header else []
    return dxf(*start, section("ENTITIES", *(text(each) for each in said)), EOF, encoding=encoding)


def texts(file: File) -> list[str]:
    return [entity.text(1) for entity in file.entities]


def header(version: str, page: str | None = None) -> tuple[tuple[int, object], ...]:
    stated: tuple[tuple[int, object], ...] = ((9, "$ACADVER"), (1, version))
    return stated if page is None else (*stated, (9, "$DWGCODEPAGE"), (3, page))


def rules(file: File) -> list[str]:
    return [finding.rule.id for finding in file.findings]


@pytest.mark.parametrize(("encoding", "word"), [(e, w) for e, words in WORDS.items() for w in words])
def test_a_word_without_any_statement_is_read(encoding: str, word: str) -> None:
    file = opened(source(with_texts(f"Piece Name: {word}", word, encoding=encoding)))
    assert texts(file) == [f"Piece Name: {word}", word]
    assert rules(file) == ["dxf/encoding"]


@pytest.mark.parametrize("encoding", WORDS)
def test_all_words_of_a_pattern_are_read(encoding: str) -> None:
    file = opened(source(with_texts(*WORDS[encoding], encoding=encoding)))
    assert texts(file) == WORDS[encoding]
    assert file.encoding == encoding


@pytest.mark.parametrize("encoding", WORDS)
def test_utf_8_is_met_whatever_is_stated(encoding: str) -> None:
    for start in ((), header("AC1009"), header("AC1015", "ANSI_1252")):
        file = opened(source(with_texts(*WORDS[encoding], encoding="utf-8", header=start)))
        assert texts(file) == WORDS[encoding]
        assert rules(file) == ["dxf/encoding"]


@pytest.mark.parametrize(
    ("page", "encoding"),
    [
        ("ANSI_936", "gbk"), ("ansi_936", "gbk"), ("GB2312", "gbk"), ("ANSI_932", "cp932"), ("ANSI_949", "cp949"),
        ("ANSI_950", "cp950"), ("big5", "cp950"), ("ANSI_1252", "cp1252"), ("ANSI_1251", "cp1251"),
    ],
)  # fmt: skip
def test_a_code_page_that_is_stated_is_used_and_needs_no_word(page: str, encoding: str) -> None:
    file = opened(source(with_texts(*WORDS[encoding], encoding=encoding, header=header("AC1015", page))))
    assert texts(file) == WORDS[encoding]
    assert rules(file) == []


@pytest.mark.parametrize(("page", "word"), [("dos850", "Größe"), ("dos437", "Größe"), ("ISO8859-1", "Größe"), ("mac-roman", "Größe")])  # fmt: skip
def test_pages_of_older_systems(page: str, word: str) -> None:
    encoding = {"dos850": "cp850", "dos437": "cp437"}.get(page, page)
    file = opened(source(with_texts(word, encoding=encoding, header=header("AC1009", page))))
    assert texts(file) == [word]


def test_a_stated_page_that_does_not_fit_is_told_with_what_was_used_instead() -> None:
    # cp1252 has no letter 0x81, which begins half of all Japanese punctuation.
    data = with_texts("前身頃、左", "ポケット", encoding="cp932", header=header("AC1015", "ANSI_1252"))
    file = opened(source(data))
    assert texts(file) == ["前身頃、左", "ポケット"]
    assert rules(file) == ["dxf/encoding"]
    assert "Windows 1252" in file.findings[0].text
    assert "Shift JIS" in file.findings[0].text


def test_from_2007_on_files_are_utf_8() -> None:
    word = WORDS["gbk"][0]
    file = opened(source(with_texts(word, encoding="utf-8", header=header("AC1021", "ANSI_1252"))))
    assert (texts(file), rules(file), file.encoding) == ([word], [], "utf-8")
    legacy = opened(source(with_texts("Rückenteil", encoding="cp1252", header=header("AC1032", "ANSI_1252"))))
    assert (texts(legacy), rules(legacy)) == (["Rückenteil"], ["dxf/encoding"])


def test_a_byte_order_mark_is_no_line() -> None:
    data = b"\xef\xbb\xbf" + with_texts("袖", encoding="utf-8")
    file = opened(source(data))
    assert texts(file) == ["袖"]
    assert file.entities[0].line == 5


@pytest.mark.parametrize("wanted", ["gbk", "GBK", "gb18030", "cp936"])
def test_the_person_overrules(wanted: str) -> None:
    file = opened(source(with_texts("前片", encoding="gbk", header=header("AC1015", "ANSI_1252"))), wanted)
    assert texts(file) == ["前片"]
    assert rules(file) == []


def test_an_encoding_that_is_none_or_does_not_fit_is_refused() -> None:
    data = with_texts("plain", "后片", encoding="gbk")
    for wanted in ("klingon", "utf-16", "hex", "utf-7", "rot13", "punycode", "iso2022_jp", "idna", "\x00"):
        with pytest.raises(UnknownName):
            opened(source(data), wanted)
    with pytest.raises(Unreadable) as error:
        opened(source(data), "utf-8")
    assert error.value.line == 28
    assert opened(source(data), "latin-1").encoding == "iso8859-1"


def test_bytes_that_make_no_words_are_kept_and_told() -> None:
    data = dxf(section("ENTITIES", text("X")), EOF).replace(b"X", b"\x81\x8d\x8f\x90\x9d\xff")
    file = opened(source(data))
    assert rules(file) == ["dxf/encoding-unclear"]
    assert len(file.entities) == 1


# Source of the three escapes: the DXF reference of Autodesk; their pages for \\M+ are from memory of it.
ESCAPES = {
    r"T\U+00e4sche": "Täsche",
    r"\U+524D\U+7247 M": "前片 M",
    r"\M+1914F\M+5C7B0": "前前",
    r"\M+2AB65": "前",
    r"\M+3BED5": "앞",
    r"\U+D83D\U+DE00": "😀",
    r"\U+D83D alone": "\ufffd alone",
    r"a\U+000Ab": "a b",
    r"\U+0085": " ",
    r"\U+12": r"\U+12",
    r"\M+9C7B0": r"\M+9C7B0",
    r"\M+5FFFF": r"\M+5FFFF",
    "one^Jtwo": "one\ntwo",
    "one^Itwo": "one\ttwo",
    "2^ 3": "2^3",
    "x^2": "x^2",
    r"%%d": "%%d",
}


@pytest.mark.parametrize("written", ESCAPES)
def test_escapes(written: str) -> None:
    assert texts(opened(source(with_texts(written, "after")))) == [ESCAPES[written], "after"]


@given(st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), min_size=1))
def test_any_text_comes_back_from_escapes(said: str) -> None:
    said = said.replace("^", "").replace("\\", "")
    units = said.encode("utf-16-be")
    written = "".join(f"\\U+{units[k] << 8 | units[k + 1]:04X}" for k in range(0, len(units), 2))
    assert texts(opened(source(with_texts(written)))) == [said]


def test_names_and_blocks_are_in_the_same_text() -> None:
    data = dxf(
        section("BLOCKS", block("Ärmel", text("x", layer="Nähte"))),
        section("ENTITIES"),
        EOF,
        encoding="cp1252",
    )
    found = opened(source(data)).blocks["ÄRMEL"]
    assert found.name == "Ärmel"
    assert found.entities[0].layer == "Nähte"


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends_of_all_systems(end: str) -> None:
    file = opened(
        source(dxf(section("ENTITIES", text("袖"), text("a")), EOF, encoding="cp932", end=end)), "cp932"
    )
    assert texts(file) == ["袖", "a"]
    assert [entity.line for entity in file.entities] == [5, 17]
