"""In which encoding a file's text is written: what it states, what its version means, or what its bytes allow."""

from __future__ import annotations

import codecs
import re
from dataclasses import dataclass

from notchwork.findings import Finding, Place, UnknownName
from notchwork_plugins.dxf.file.errors import Unreadable
from notchwork_plugins.dxf.file.plausible import guessed
from notchwork_plugins.dxf.rules import ENCODING, ENCODING_UNCLEAR

_HEAD = 1 << 16
_VERSION = re.compile(rb"\$ACADVER[ \t\r]*\n[ \t]*1[ \t\r]*\n[ \t]*(AC\d{4})")
_PAGE = re.compile(rb"\$DWGCODEPAGE[ \t\r]*\n[ \t]*3[ \t\r]*\n[ \t]*([\w-]+)")
_NUMBERED = re.compile(r"(?:ansi|dos|cp|windows)[_-]?(\d{3,5})")
_PAGES = {"936": "gbk", "65001": "utf-8", "1361": "johab", "1200": "utf-16"}
_NAMES = {
    "gb2312": "gbk",
    "ksc5601": "cp949",
    "mac-roman": "mac-roman",
    "macintosh": "mac-roman",
    "big5": "cp950",
}

UNICODE_FROM = "AC1021"
"""Files of this version (2007) and later are in UTF-8. Source: the DXF reference of Autodesk."""

_WIDE_PAGES = frozenset({"gbk", "cp932", "cp949", "cp950", "johab"})
SAID = {
    "gbk": "GBK (simplified Chinese)",
    "cp950": "Big5 (traditional Chinese)",
    "cp932": "Shift JIS (Japanese)",
    "cp949": "code page 949 (Korean)",
    "cp1250": "Windows 1250 (Central European)",
    "cp1251": "Windows 1251 (Cyrillic)",
    "cp1252": "Windows 1252 (Western European)",
    "cp1253": "Windows 1253 (Greek)",
    "cp1254": "Windows 1254 (Turkish)",
    "utf-8": "UTF-8",
}


@dataclass(frozen=True, slots=True)
class Encoding:
    """A codec by Python's name, and what is to be said of how it was found."""

    name: str
    findings: tuple[Finding, ...] = ()


def encoding_of(data: bytes, name: str, wanted: str | None) -> Encoding:
    """The encoding of a file in which every byte can be read. ``wanted`` overrules everything.

    Raises UnknownName for an encoding that does not exist, Unreadable where the one that is wanted does not fit.
    """
    if wanted:
        return Encoding(_wanted(data, name, wanted))
    if data.isascii():
        return Encoding("ascii")
    stated = _stated(data)
    if stated and _reads(data, stated):
        # Programs write UTF-8 into files that name a page of single bytes; text that happens to be UTF-8 is no accident.
        if stated in _WIDE_PAGES or stated == "utf-8" or not _reads(data, "utf-8"):
            return Encoding(stated)
        return _told(
            "utf-8",
            f"The file says that its text is in {said(stated)}, but it is {said('utf-8')}, and was read so.",
        )
    lead = f"The file says that its text is in {said(stated)}, which it is not" if stated else ""
    found = guessed(data)
    if found is None:
        return Encoding(
            "latin-1",
            (
                Finding(
                    ENCODING_UNCLEAR,
                    Place(),
                    "Nothing tells in which encoding the text is: names may be garbled.",
                    "Say it with -O encoding=…, such as gbk, big5, shift_jis, cp1251 or cp1252.",
                ),
            ),
        )
    text = (
        f"{lead}; it was read as {said(found)}."
        if lead
        else f"Text was read as {said(found)}, which the file does not say."
    )
    return _told(found, text)


def version_of(data: bytes) -> str | None:
    """The version that the header states, such as AC1009."""
    found = _VERSION.search(data, 0, _HEAD)
    return found[1].decode() if found else None


def said(encoding: str) -> str:
    """An encoding as it is named in messages."""
    return SAID.get(encoding, encoding)


def _told(encoding: str, text: str) -> Encoding:
    hint = "If names look wrong, say the encoding with -O encoding=…"
    return Encoding(encoding, (Finding(ENCODING, Place(), text, hint),))


def _stated(data: bytes) -> str | None:
    if (version_of(data) or "") >= UNICODE_FROM:
        return "utf-8"
    page = _PAGE.search(data, 0, _HEAD)
    if page is None:
        return None
    written = page[1].decode().lower()
    numbered = _NUMBERED.fullmatch(written)
    codec = (
        _PAGES.get(numbered[1], f"cp{numbered[1]}")
        if numbered
        else _NAMES.get(written, written.replace("_", "-"))
    )
    return codec if _is_codec(codec) and codec != "ascii" else None


def _is_codec(codec: str) -> bool:
    """Whether it is an encoding of text in which every line stands for itself and ends as in ASCII."""
    try:
        plain = "0\n^\\".encode(codec) == b"0\n^\\"
        return plain and not codecs.lookup(codec).name.startswith(("iso2022", "hz", "idna"))
    except (LookupError, UnicodeError, ValueError):
        return False


def _wanted(data: bytes, name: str, wanted: str) -> str:
    if not _is_codec(wanted):
        raise UnknownName("encoding", wanted, (*SAID, "big5", "shift_jis", "latin-1"))
    try:
        data.decode(wanted)
    except UnicodeDecodeError as error:
        raise Unreadable(
            name,
            f"The text is not in {said(wanted)}: a letter here does not exist in it.",
            "Name another encoding, or none, so that it is worked out.",
            data.count(b"\n", 0, error.start) + 1,
        ) from error
    return codecs.lookup(wanted).name


def _reads(data: bytes, encoding: str) -> bool:
    try:
        data.decode(encoding)
    except UnicodeDecodeError:
        return False
    return True
