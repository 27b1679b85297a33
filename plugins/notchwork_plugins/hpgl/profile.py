"""Profiles of devices: those that come along, and a person's own file in TOML."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Collection, Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any, TypeVar, get_args

from notchwork.findings import NotchworkError, UnknownName, listed
from notchwork_plugins.hpgl.device import UNIT, Advance, Device, Language, Lettering, Origin

_MOST_BYTES = 20_000
_LONGEST = 50_000.0
"""mm: no plotter reaches further across, nor has longer sheets."""
_LEAST = 50.0
_MOST_DIGITS = 9
_LEAST_NUMBER = 4_000
"""A device of smaller numbers would have parts of a hand's breadth."""
_LONGEST_WORDS = 300
_KEYS = frozenset(
    {
        "title", "source", "language", "along", "across", "x_axis", "origin", "largest", "advance",
        "text", "knife", "pens", "speed", "force",
    }
)  # fmt: skip
_Word = TypeVar("_Word", bound=str)


def names() -> tuple[str, ...]:
    """The devices that come along."""
    here = files("notchwork_plugins.hpgl").joinpath("devices")
    return tuple(
        sorted(file.name.removesuffix(".toml") for file in here.iterdir() if file.name.endswith(".toml"))
    )


def device(stated: str) -> Device:
    """The device of that name, or the one that a file of that name describes. Raises NotchworkError."""
    if stated.lower().endswith(".toml"):
        return described(Path(stated).stem, stated, _content(Path(stated)))
    if stated.lower() not in names():
        raise UnknownName("device", stated, names())
    name = stated.lower()
    here = files("notchwork_plugins.hpgl").joinpath("devices", f"{name}.toml")
    return described(name, f"{name}.toml", here.read_bytes())


def _content(path: Path) -> bytes:
    if path.exists() and not path.is_file():  # a pipe would be waited for
        raise NotchworkError(str(path), "It is no file.", "Name a file that ends in .toml.")
    try:
        with path.open("rb") as file:
            return file.read(_MOST_BYTES + 1)
    except OSError as error:
        raise NotchworkError(
            str(path),
            f"The profile cannot be read: {error.strerror}.",
            "Name a file that is there, ending in .toml.",
        ) from error


def described(name: str, where: str, content: bytes) -> Device:
    """A profile read and held against its rules; ``where`` is the file's name. Raises NotchworkError."""
    if len(content) > _MOST_BYTES:
        raise NotchworkError(where, "It is too long for a profile.", "A profile has some twenty short lines.")
    try:
        table = tomllib.loads(content.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        raise NotchworkError(where, "It is no text in UTF-8.", "Save it as text in UTF-8.") from error
    except (ValueError, RecursionError) as error:  # numbers of thousands of digits are no TOMLDecodeError
        raise NotchworkError(
            where, f"It is no TOML: {error}.", "Write one line for each key: key = value."
        ) from error
    return _Reader(where, table).device(name)


class _Reader:
    """A profile's table, key by key; every complaint names the file and the key."""

    def __init__(self, where: str, table: Mapping[str, Any], within: str = "") -> None:
        self.where, self.table, self.within = where, table, within

    def device(self, name: str) -> Device:
        self.only(_KEYS)
        pens, speed, force = (self.part(key) for key in ("pens", "speed", "force"))
        for part in (pens, speed, force):
            part.only({"cut", "draw"})
        found = Device(
            name=name,
            title=self.words("title"),
            source=self.words("source"),
            language=self.word("language", get_args(Language)),
            along=self.reach("along"),
            across=self.reach("across"),
            x_along=self.word("x_axis", ("along", "across"), "along") == "along",
            origin=self.word("origin", get_args(Origin), "lower left"),
            largest=self.whole("largest", _LEAST_NUMBER, 2**30, 32_767),
            advance=self.word("advance", get_args(Advance)),
            text=self.word("text", get_args(Lettering), "strokes"),
            knife=self.yes("knife"),
            cut=pens.whole("cut", 1, 256),
            draw=None if pens.table.get("draw") == "none" else pens.whole("draw", 1, 256),
            speed=(speed.number("cut", 0.1, 500), speed.number("draw", 0.1, 500)),
            force=(force.number("cut", 1, 10_000), force.number("draw", 1, 10_000)),
        )
        self.fits_together(found)
        return found

    def fits_together(self, found: Device) -> None:
        """What no single key shows."""
        if math.isinf(found.across):
            raise self.fault("across", "A roll is as wide as it is.", "Give its width in mm.")
        if found.is_roll and found.origin == "centre":
            raise self.fault(
                "origin", "A roll has no centre before it is cut off.", "Set it to “lower left”."
            )
        if found.advance == "FR" and found.language == "HP-GL":
            raise self.fault(
                "advance", "FR belongs to HP-GL/2.", "Choose PG, AF or file; or set the language."
            )
        if found.knife and found.draw == found.cut:
            raise self.fault(
                "pens", "A knife cannot draw.", 'Give the pen a number of its own, or say draw = "none".'
            )

    def fault(self, key: str, why: str, repair: str) -> NotchworkError:
        place = f"{self.within}.{key}" if self.within else key
        return NotchworkError(f"{self.where}, {place}", why, repair)

    def only(self, known: Collection[str]) -> None:
        for key in self.table:
            if key not in known:
                raise self.fault(key, "A profile has no such key.", f"Known are {listed(sorted(known))}.")

    def part(self, key: str) -> _Reader:
        value = self.table.get(key, {})
        if not isinstance(value, dict):
            raise self.fault(
                key, "It has a line for each tool.", f"Write [{key}], and below it cut = and draw =."
            )
        return _Reader(self.where, value, key)

    def words(self, key: str) -> str:
        value = self.table.get(key)
        if not isinstance(value, str) or not value.strip():
            raise self.fault(key, "It is missing.", "Say it in a few words between quotation marks.")
        if len(value) > _LONGEST_WORDS:
            raise self.fault(key, f"It has {len(value):,} letters.", "Say it in a few words.")
        return value.strip()

    def word(self, key: str, known: Collection[_Word], default: _Word | None = None) -> _Word:
        value = self.table.get(key, default)
        for one in known:
            if value == one:
                return one
        quoted = [f"“{one}”" for one in known]
        raise self.fault(key, "It is missing or unknown.", f"Choose {listed(quoted, 'or')}.")

    def yes(self, key: str) -> bool:
        value = self.table.get(key, False)
        if not isinstance(value, bool):
            raise self.fault(key, "It is neither true nor false.", "Write true or false.")
        return value

    def number(self, key: str, least: float, most: float) -> float | None:
        value = self.table.get(key)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int | float) or not least <= value <= most:
            raise self.fault(
                key, "It is no number that can be.", f"Give a number from {least:g} to {most:g}."
            )
        return float(value)

    def whole(self, key: str, least: int, most: int, default: int | None = None) -> int:
        value = self.table.get(key, default)
        if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
            raise self.fault(
                key, "It is missing or no number that can be.", f"Give a whole number from {least} to {most}."
            )
        return value

    def reach(self, key: str) -> float:
        """A reach in mm; a whole number of plotter units where it says so, endless for a roll."""
        value = self.table.get(key)
        if value == "roll":
            return math.inf
        said = value.removesuffix(" units") if isinstance(value, str) and value.endswith(" units") else ""
        units = said.isdecimal() and len(said) <= _MOST_DIGITS
        mm = int(said) * UNIT if units else value
        if isinstance(mm, bool) or not isinstance(mm, int | float) or not _LEAST <= mm <= _LONGEST:
            raise self.fault(
                key,
                "It is missing or no length that can be.",
                'Give mm (such as 580), plotter units (such as "7721 units"), or "roll" along a roll.',
            )
        return float(mm)
