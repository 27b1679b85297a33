"""What a plain drawing that was written here says of each line, point and text, as extended data of ours.

The strings of one entity (code 1000) are JSON, cut into pieces of at most 248 letters: its meaning, its facts, the group it
belongs to, and, on the first entity of a group, what is said of the whole group and of the drawing. It is plain ASCII without
blanks and carets, which some programs trim or decode.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple, cast

from notchwork.drawing import Fact, Facts, Meaning
from notchwork.drawing.meaning import FACTS, MEANINGS, NUMBERS
from notchwork_plugins.dxf.attached import APPLICATION, MOST_STRING

MOST = 1e6
"""mm, or degrees: no number that is said is larger. Nothing that is cut from cloth measures a kilometre."""

__all__ = ["APPLICATION", "Chords", "Said", "said_of", "strings_of"]


class Chords(NamedTuple):
    """What a polyline says of the curve that it stands for.

    ``vertices`` is how many it has, ``nodes`` numbers those at which a cubic of the curve begins (the last one of an open
    line ends it and is none), ``corners`` those of them at which it does not run on smoothly, ``off`` (mm) is how far the
    chords lie beside the curve at most.
    """

    vertices: int
    nodes: tuple[int, ...]
    corners: tuple[int, ...]
    off: float


@dataclass(frozen=True, slots=True)
class Said:
    """What one entity says. ``shift`` (mm) is where its group's origin lies on the drawing; ``closed`` of a line that closes,
    ``chords`` of a polyline that stands for a curve.

    On the first entity of a group ``of_group`` are the group's facts and ``within`` what holds it; on the first of the drawing
    ``title``, ``sizes`` and ``base`` are those of the drawing. ``beyond`` are facts whose numbers cannot be, with these; they are
    left out of the others.
    """

    group: str
    meaning: Meaning | None = None
    facts: Facts = field(default_factory=dict)
    shift: complex = 0j
    closed: bool = False
    of_group: Facts = field(default_factory=dict)
    within: tuple[str, ...] = ()
    title: str = ""
    sizes: tuple[str, ...] = ()
    base: str | None = None
    chords: Chords | None = None
    beyond: tuple[tuple[Fact, str], ...] = ()


def strings_of(said: Said) -> list[str]:
    """The strings of an entity."""
    more: dict[str, object] = {
        "meaning": said.meaning,
        "facts": dict(said.facts),
        "shift": [said.shift.real, said.shift.imag] if said.shift else None,
        "closed": said.closed,
        "of_group": dict(said.of_group),
        "within": said.within,
        "title": said.title,
        "sizes": said.sizes,
        "base": said.base,
        "chords": said.chords,
    }
    every = {"group": said.group, **{key: value for key, value in more.items() if value}}
    text = json.dumps(every, separators=(",", ":"))
    text = text.replace(" ", "\\u0020").replace("^", "\\u005e")
    return [text[k : k + MOST_STRING] for k in range(0, len(text), MOST_STRING)]


def said_of(strings: Iterable[str]) -> Said | None:
    """What the strings of an entity say; None where they are not as they were written."""
    try:
        found = json.loads("".join(strings))
        across, up = found.get("shift", (0.0, 0.0))
        shift = complex(across, up)
        if not isinstance(found["group"], str) or not (_can_be(shift.real) and _can_be(shift.imag)):
            return None
        meaning = found.get("meaning")
        facts, of_group = found.get("facts", {}), found.get("of_group", {})
        return Said(
            found["group"],
            cast(Meaning, meaning) if meaning in MEANINGS else None,
            _facts(facts),
            shift,
            bool(found.get("closed")),
            _facts(of_group),
            _names(found.get("within", ())),
            str(found.get("title", "")),
            _names(found.get("sizes", ())),
            None if found.get("base") is None else str(found["base"]),
            _chords(found.get("chords")),
            (*_beyond(facts), *_beyond(of_group)),
        )
    except (ValueError, TypeError, KeyError, AttributeError, OverflowError, RecursionError):
        return None


def _facts(stated: Mapping[Any, Any]) -> Facts:
    """The facts that a drawing knows; a number that is none is no fact."""
    found: dict[Fact, str | float] = {}
    for key, value in stated.items():
        if key in NUMBERS and isinstance(value, int | float) and _can_be(value):
            found[key] = float(value)
        elif key in FACTS and key not in NUMBERS and isinstance(value, str):
            found[key] = value
    return found


def _beyond(stated: Mapping[Any, Any]) -> Iterator[tuple[Fact, str]]:
    for key, value in stated.items():
        if key in NUMBERS and isinstance(value, int | float) and not _can_be(value):
            yield key, str(value)[:12]


def _can_be(value: float) -> bool:
    return abs(value) <= MOST


def _names(stated: Iterable[Any]) -> tuple[str, ...]:
    return tuple(name for name in stated if isinstance(name, str))


def _chords(stated: Any) -> Chords | None:
    """Those of a line that has such vertices; what cannot be is as good as not said."""
    if stated is None:
        return None
    count, nodes, corners, off = stated
    known = sorted({int(node) for node in nodes}), sorted({int(corner) for corner in corners})
    if not all(0 <= vertex < count for some in known for vertex in some) or not 0.0 < off < math.inf:
        return None
    return Chords(int(count), tuple(known[0]), tuple(known[1]), float(off))
