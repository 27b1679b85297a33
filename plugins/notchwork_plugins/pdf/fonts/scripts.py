"""What can be said of words before a font is asked: what of them is text, and which scripts need more than one letter after another."""

from __future__ import annotations

import unicodedata

_FROM_THE_RIGHT = frozenset({"R", "AL"})
_JOINED = (
    (0x0900, 0x0DFF),  # Devanagari to Sinhala
    (0x0E00, 0x0EFF),  # Thai, Lao
    (0x0F00, 0x109F),  # Tibetan, Myanmar
    (0x1780, 0x18AF),  # Khmer, Mongolian
    (0x1900, 0x1CFF),  # Limbu to Vedic signs
    (0xA800, 0xABFF),  # Syloti Nagri to Meetei Mayek
    (0x11000, 0x11FFF),  # Brahmi and its kin
)
"""Blocks of scripts whose letters change, move or stack by what stands beside them. Source: The Unicode Standard, 12 to 16."""


def plain(words: str) -> str:
    """Words as one line: composed (NFC), line ends and tabs as blanks, without control characters and marks of direction."""
    if words.isascii() and words.isprintable():
        return words
    kept = []
    for letter in unicodedata.normalize("NFC", words):
        kind = unicodedata.category(letter)
        if letter in "\t\n\r\v\f" or kind in ("Zl", "Zp", "Zs"):
            kept.append(" ")
        elif kind == "Cs":
            kept.append("\N{REPLACEMENT CHARACTER}")
        elif kind not in ("Cc", "Cf") and not _picks_a_shape(letter):
            kept.append(letter)
    return "".join(kept)


def is_unshaped(words: str) -> bool:
    """Whether drawing letter after letter from the left does not do justice to the words."""
    if words.isascii():
        return False
    return any(
        unicodedata.bidirectional(letter) in _FROM_THE_RIGHT
        or any(low <= ord(letter) <= high for low, high in _JOINED)
        for letter in words
    )


def _picks_a_shape(letter: str) -> bool:
    """Whether it only chooses how the letter before it looks (Unicode, variation selectors)."""
    return "\ufe00" <= letter <= "\ufe0f"
