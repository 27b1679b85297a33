"""The rule file: how far a point moves in every size, by the number of its rule.

The grammar is from memory of ASTM D6673-10, not checked against a copy: lines KEY: value, then for each rule "RULE: DELTA n" and
as many pairs "dx, dy" as there are sizes, over as many lines as it takes, and END.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from notchwork.findings import Finding, Place, safe
from notchwork_plugins.dxf.convention.keys import STYLE, units_of
from notchwork_plugins.dxf.convention.told import FAULTY_RULES

MOST_SIZES = 200
MOST_RULES = 100_000
_HEAD = re.compile(r"\s*([^:]+?)\s*:\s*(.*?)\s*")
_RULE = re.compile(r"\s*RULE\s*:\s*DELTA\s*(\S*)\s*", re.IGNORECASE)
_END = re.compile(r"\s*END\s*", re.IGNORECASE)
_SPLIT = re.compile(r"[\s,;]+")


@dataclass(frozen=True, slots=True)
class Table:
    """The rules as they are written, in mm: one complex number for each of the sizes."""

    sizes: tuple[str, ...]
    sample: str
    rules: Mapping[int, tuple[complex, ...]]
    name: str | None = None


@dataclass(slots=True)
class _Reading:
    called: str
    heads: dict[str, tuple[str, int]] = field(default_factory=dict)
    numbers: dict[int, tuple[int, list[float]]] = field(default_factory=dict)
    faults: list[Finding] = field(default_factory=list)

    def fault(self, text: str, line: int, **values: object) -> None:
        self.faults.append(
            Finding(
                FAULTY_RULES,
                Place(),
                "{file}, line {line}: " + text + " Only the sample size is read.",
                "Mend the rule file, or read without it (rules=none).",
                {"file": self.called, "line": str(line), **values},
            )
        )


def read_table(text: str, called: str, mm: float | None) -> tuple[Table | None, list[Finding]]:
    """The table in the text of a file that is called so in messages; None, with its faults, where it has any.

    ``mm`` is what a unit is where the file itself does not say.
    """
    reading = _Reading(called)
    # An empty file has its faults in its first line.
    last = max(_read_lines(reading, text), 1)
    sizes, sample = _sizes(reading, last)
    scale = _scale(reading, mm)
    rules = dict(_rules(reading, sizes, sample, scale or 1.0)) if sizes and not reading.faults else {}
    if reading.faults:
        return None, reading.faults
    name = reading.heads.get("rule table", ("", 0))[0]
    return Table(sizes, sample, rules, name or None), []


def _read_lines(reading: _Reading, text: str) -> int:
    """Sort the lines into heads and rules; the number of the last."""
    current: list[float] | None = None
    number = 0
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip():
            continue
        if _END.fullmatch(line):
            break
        rule = _RULE.fullmatch(line)
        if rule is not None:
            current = []
            ident = int(rule[1]) if rule[1].isascii() and rule[1].isdigit() and len(rule[1]) < 10 else None
            if ident is None:
                reading.fault("“{word}” is no number of a rule.", number, word=safe(rule[1]))
            elif ident in reading.numbers:
                reading.fault("Rule {rule} is stated twice.", number, rule=str(ident))
            elif len(reading.numbers) >= MOST_RULES:
                reading.fault("There are too many rules.", number)
                break
            else:
                reading.numbers[ident] = (number, current)
        elif current is not None:
            current += _floats(reading, line, number)
        else:
            _head(reading, line, number)
    return number


def _head(reading: _Reading, line: str, number: int) -> None:
    found = _HEAD.fullmatch(line)
    if found is None:
        reading.fault("“{words}” is neither KEY: value nor a rule.", number, words=safe(line.strip()[:60]))
        return
    key = " ".join(found[1].upper().replace("_", " ").split())
    reading.heads.setdefault(STYLE.get(key, key), (found[2], number))


def _floats(reading: _Reading, line: str, number: int) -> Iterator[float]:
    for word in _SPLIT.split(line.strip(" \t,;")):
        try:
            value = float(word)
        except ValueError:
            value = math.nan
        if not math.isfinite(value) or abs(value) > 1e6:
            reading.fault("“{word}” is no number that a point could move by.", number, word=safe(word[:40]))
            return
        yield value


def _sizes(reading: _Reading, last: int) -> tuple[tuple[str, ...], str]:
    listed, line = reading.heads.get("SIZE LIST", ("", last))
    sizes = tuple(word for word in _SPLIT.split(listed.strip(" \t,;")) if word)
    count, at = reading.heads.get("NUMBER OF SIZES", ("", line))
    sample, where = reading.heads.get("sample size", ("", last))
    if not sizes:
        reading.fault("There is no SIZE LIST.", line)
    elif len(sizes) > MOST_SIZES:
        reading.fault("There are too many sizes.", line)
    elif len(set(sizes)) < len(sizes):
        reading.fault("A size stands in the SIZE LIST twice.", line)
    elif count and count.strip() != str(len(sizes)):
        reading.fault(
            "NUMBER OF SIZES is {count}, and the SIZE LIST has {listed}.",
            at,
            count=safe(count[:40]),
            listed=str(len(sizes)),
        )
    elif sample not in sizes:
        reading.fault("The SAMPLE SIZE “{sample}” is not in the SIZE LIST.", where, sample=safe(sample[:40]))
    return sizes, sample


def _scale(reading: _Reading, mm: float | None) -> float | None:
    said, line = reading.heads.get("units", ("", 0))
    if not said:
        return mm
    scale = units_of(said)
    if scale is None:
        reading.fault("UNITS “{said}” are neither METRIC nor ENGLISH.", line, said=safe(said[:40]))
    return scale


def _rules(
    reading: _Reading, sizes: tuple[str, ...], sample: str, scale: float
) -> Iterator[tuple[int, tuple[complex, ...]]]:
    own = sizes.index(sample)
    for ident, (line, numbers) in reading.numbers.items():
        values = {"rule": str(ident), "sizes": str(len(sizes)), "sample": sample}
        if len(numbers) != 2 * len(sizes):
            reading.fault(
                "Rule {rule} states {count} numbers, not a pair for each of {sizes} sizes.",
                line,
                count=str(len(numbers)),
                **values,
            )
            continue
        shifts = tuple(
            complex(across, up) * scale for across, up in zip(numbers[::2], numbers[1::2], strict=True)
        )
        if abs(shifts[own]) > 1e-6:
            reading.fault("Rule {rule} moves the sample size {sample} too.", line, **values)
            continue
        yield ident, shifts
