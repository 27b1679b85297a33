"""Names of blocks and tables, as R12 has them."""

from __future__ import annotations

import re
import unicodedata

MOST = 31
"""Letters of a name (DXF reference of Release 12)."""

_FOREIGN = re.compile(r"[^A-Z0-9_$-]+")


def plain(name: str) -> str:
    """The name in A-Z 0-9 _ - $, of any length; "" where nothing of it can be kept."""
    letters = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode("ascii").upper()
    # Names that begin with $ or * are the program's own in later releases.
    return _FOREIGN.sub("_", letters).strip("_").lstrip("$")


class Names:
    """Gives every block a name of its own."""

    def __init__(self) -> None:
        self._taken: set[str] = set()

    def of(self, piece: str, size: str | None) -> str:
        """PIECE-SIZE, cut short and numbered where another has it; only PIECE where there is one size."""
        ending = f"-{plain(size) or 'SIZE'}" if size is not None else ""
        ending, start = ending[: MOST // 2], plain(piece) or "PIECE"
        name, count = start[: MOST - len(ending)] + ending, 1
        while name in self._taken:
            count += 1
            number = f"_{count}"
            name = start[: MOST - len(ending) - len(number)] + number + ending
        self._taken.add(name)
        return name
