"""Which encoding the bytes of a text without any statement are in: strict decoding, and whether words come out.

Common practice, no source. Asian sets order their signs by how common they are, so that the first level of a set (GB 2312,
Big5, JIS X 0208, KS X 1001) is nearly all of what is written; elsewhere letters of one alphabet stand together, and capitals begin.
"""

from __future__ import annotations

import re
from collections.abc import Callable

_FOREIGN = re.compile(rb"[\x80-\xff]")
_WORD = re.compile(r"[^\W\d_]+")
_MOST = 1 << 16
_ENOUGH = 0.6

Score = Callable[[str, str], float]


def guessed(data: bytes) -> str | None:
    """The encoding in which the text that is not ASCII makes most sense; None where none makes any."""
    sample = _sample(data)
    marks = []
    for encoding, score in _CANDIDATES:
        try:
            marks.append((score(sample.decode(encoding), encoding), encoding))
        except UnicodeDecodeError:
            continue
    for mark, encoding in sorted(marks, key=lambda found: -found[0]):
        if mark > _ENOUGH and _reads(data, encoding):
            return encoding
    return None


def _reads(data: bytes, encoding: str) -> bool:
    try:
        data.decode(encoding)
    except UnicodeDecodeError:
        return False
    return True


def _sample(data: bytes) -> bytes:
    """Lines that are not ASCII, each once, as many as tell enough."""
    lines: dict[bytes, None] = {}
    at = size = 0
    while size < _MOST and (found := _FOREIGN.search(data, at)):
        begin = data.rfind(b"\n", at, found.start()) + 1 or at
        end = data.find(b"\n", found.start())
        at = len(data) if end < 0 else end
        line = data[begin:at][:_MOST]
        if line not in lines:
            lines[line] = None
            size += len(line)
    return b"\n".join(lines)


def _mean(marks: list[float]) -> float:
    return sum(marks) / len(marks) if marks else 0.0


def _signs(text: str, encoding: str) -> float:
    """For sets of two bytes: how many of the signs are on the first level of the set, and among the commonest."""
    common, fair = _LEVELS[encoding]
    marks = []
    for at, sign in enumerate(text):
        if sign <= "\x7f":
            continue
        code = int.from_bytes(sign.encode(encoding), "big")
        if _glued(text[at - 1 : at]) or _glued(text[at + 1 : at + 2]):
            marks.append(0.1)  # an accented letter and its neighbour, taken for one sign
        elif any(code in part for part in common):
            known = _COMMONEST.get(encoding)
            marks.append(0.96 if known is None else 1.0 if sign in known else 0.97)
        else:
            marks.append(0.6 if any(code in part for part in fair) else 0.1)
    return _mean(marks)


def _glued(beside: str) -> bool:
    return beside.isascii() and beside.islower()


def _unicode(text: str, encoding: str) -> float:
    """UTF-8 is hardly ever met by accident, but for a word or two of GBK, which then look like no language."""
    foreign = [sign for sign in text if sign > "\x7f"]
    odd = sum(
        1 for sign in foreign if "\u0180" <= sign <= "\u036f" or "\u0500" <= sign <= "\u058f" or sign < "\xa0"
    )
    return 2.0 if 2 * odd < len(foreign) else 0.7


def _within(first: int, last: int, low: int = 0xA1) -> list[range]:
    """Codes whose first byte lies in a range and whose second is from ``low`` up."""
    return [range(lead << 8 | low, lead << 8 | 0xFF) for lead in range(first, last + 1)]


_LEVELS: dict[str, tuple[list[range], list[range]]] = {
    "gbk": (_within(0xB0, 0xD7), _within(0xA1, 0xA3)),
    "cp949": (_within(0xB0, 0xC8), _within(0xA1, 0xA3)),
    "cp950": (_within(0xA4, 0xC6, 0x40), _within(0xA1, 0xA3, 0x40)),
    "cp932": (
        [range(0x829F, 0x82F2), range(0x8340, 0x8397), *_within(0x88, 0x97, 0x40)],
        _within(0x81, 0x82, 0x40),
    ),
}


_COMMONEST = {
    "gbk": "前后片袖领口袋腰头左右里布大小身门襟面料帽下上摆罗纹名称号码数量尺寸样板款式中长短裤裙衣衬衫克夫带贴边缝份肩侧育克褶省对折刀裁剪布纹一二三四五六不是的在有和日期作者备注",
    "cp949": "앞뒤판소매칼라주머니허리단안감겉길옆왼쪽오른깃밑바지치마몸요크커프스벨트심지접기선다트봉제원단사이즈이름수량장번호표시작성자일부분상하대중의에는을를가고로기한도어인나은그정아서보들전라해비제여구신성유조",
}
"""Signs that are common in general and on patterns: they tell Chinese from Korean, whose bytes are the same."""


def _letters(text: str, encoding: str) -> float:
    """For sets of one byte: how many of the letters stand in words of one alphabet, written as words are."""
    common, other = _ALPHABETS[encoding]
    marks = []
    for word in _WORD.findall(text):
        foreign = [letter for letter in word if letter > "\x7f" and letter.isalpha()]
        if not foreign:
            continue
        shaped = word.islower() or word.isupper() or word.istitle()
        mixed = other and len(foreign) != len(word)
        for letter in foreign:
            mark = 0.95 if letter.lower() in common else 0.3
            marks.append(0.1 if mixed else mark if shaped else mark / 3)
        if not other and len(foreign) > (len(word) + 1) // 2:
            marks.append(0.1)
    stray = sum(1 for sign in text if sign > "\x7f" and not sign.isalpha() and sign not in "°½¼¾×–—“”‘’„…²")
    return _mean(marks + [0.1] * stray) if marks else (0.7 if not stray else 0.0)


_ALPHABETS: dict[str, tuple[str, bool]] = {
    "cp1252": ("äöüßéèêëàâçñóòôáíìîïúùûåæøãõœ", False),
    "cp1250": ("ąćęłńóśźżčďěňřšťůýžáéíúőűäöüßăâîșțđ", False),
    "cp1254": ("çğıöşüâîû", False),
    "cp1251": ("абвгдежзийклмнопрстуфхцчшщъыьэюяёіїєґ", True),
    "cp1253": ("αβγδεζηθικλμνξοπρσςτυφχψωάέήίόύώϊϋ", True),
}

_CANDIDATES: tuple[tuple[str, Score], ...] = (
    ("utf-8", _unicode),
    ("gbk", _signs),
    ("cp932", _signs),
    ("cp950", _signs),
    ("cp949", _signs),
    ("cp1252", _letters),
    ("cp1251", _letters),
    ("cp1250", _letters),
    ("cp1254", _letters),
    ("cp1253", _letters),
)
