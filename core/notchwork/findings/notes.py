"""What is to be said of a file, gathered while it is read: the same of many parts is said once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from notchwork.findings.finding import Finding
from notchwork.findings.place import Place
from notchwork.findings.rule import Rule

_NAMED = 3
"""As many parts are named in one finding."""
_MOST = 20
"""As many findings of one rule are told one by one."""

_NONE: Mapping[str, object] = {}

Values = tuple[tuple[str, object], ...]


@dataclass(slots=True)
class _Note:
    rule: Rule
    text: str
    hint: str
    values: Values
    things: list[str] = field(default_factory=list)
    count: int = 0

    def finding(self) -> Finding:
        more = self.count - len(self.things)
        things = (*self.things, f"{more} more") if more else tuple(self.things)
        return Finding(self.rule, Place(), self.text, self.hint, {**dict(self.values), "things": things})


class Notes:
    """Remarks by rule and words. ``{things}`` in a text lists the parts it is said of."""

    def __init__(self) -> None:
        self._notes: dict[tuple[str, str, Values], _Note] = {}
        self._told: dict[str, int] = {}
        self._untold: dict[str, tuple[Rule, int]] = {}

    def add(
        self, rule: Rule, text: str, hint: str = "", thing: str = "", values: Mapping[str, object] = _NONE
    ) -> None:
        """Something to be said, of one ``thing`` or of the whole drawing."""
        key = (rule.id, text, tuple(values.items()))
        note = self._notes.get(key)
        if note is None:
            if self._told.get(rule.id, 0) >= _MOST:
                self._untold[rule.id] = (rule, self._untold.get(rule.id, (rule, 0))[1] + 1)
                return
            self._told[rule.id] = self._told.get(rule.id, 0) + 1
            note = self._notes[key] = _Note(rule, text, hint, key[2])
        note.count += 1
        if thing and len(note.things) < _NAMED:
            note.things.append(thing)

    def findings(self) -> Iterator[Finding]:
        """One finding for each thing said, in the order in which it was met first."""
        yield from (note.finding() for note in self._notes.values())
        for rule, count in self._untold.values():
            yield Finding(
                rule, Place(), "The same is wrong in {count} more places.", "", {"count": str(count)}
            )
