"""What to do about damage: refuse the file at once, or note what is lost and go on."""

from __future__ import annotations

from dataclasses import dataclass, field

from notchwork.findings import Notes
from notchwork_plugins.dxf.file.errors import DAMAGED, Unreadable
from notchwork_plugins.dxf.rules import DAMAGED as DAMAGED_RULE


@dataclass(frozen=True, slots=True)
class Damage:
    """Whether damage is borne; what was lost by it goes into the notes."""

    name: str
    borne: bool
    notes: Notes = field(default_factory=Notes)

    def met(self, line: int, why: str, lost: str, repair: str = DAMAGED) -> None:
        """Something is damaged in a line, and ``lost`` says what is left out if it is borne. Raises Unreadable if it is not."""
        if not self.borne:
            raise Unreadable(self.name, why, repair, line)
        values = {"line": str(line), "why": why, "lost": lost}
        self.notes.add(DAMAGED_RULE, "Line {line}: {why} {lost}", values=values)
