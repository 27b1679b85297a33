"""The maker's ids, which may hold any sign but dots and #, as single words for ids, fragments, attributes and file names."""

from __future__ import annotations

import hashlib
import re

_MOST = 64
_OTHER = re.compile("[^A-Za-z0-9_-]")


def token(ident: str) -> str:
    """An id as one word of plain signs, different for different ids; one that would be very long ends in its checksum."""
    plain = _OTHER.sub(lambda sign: f".{ord(sign[0]):x}.", ident)
    if len(plain) <= _MOST:
        return plain
    return f"{plain[:_MOST]}.{hashlib.sha256(ident.encode('utf-8', 'surrogatepass')).hexdigest()[:16]}"


def edge_token(piece: str, line: str) -> str:
    """An edge or inner line of a piece as one word, for the data attribute ``edges``, which lists them with spaces between."""
    return f"{token(piece)}:{token(line)}"
