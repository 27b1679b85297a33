"""What to do about damage: refuse the file at once, or note what is lost and go on."""

from __future__ import annotations

from dataclasses import dataclass, field

from notchwork.findings import Finding, Place
from notchwork_plugins.dxf.file.errors import DAMAGED, Unreadable
from notchwork_plugins.dxf.rules import DAMAGED as DAMAGED_RULE

_MOST = 20


@dataclass(slots=True)
class Damage:
    """Whether damage is borne, and what was lost by it."""

    name: str
    borne: bool
    lost: list[str] = field(default_factory=list)

    def met(self, line: int, why: str, lost: str, repair: str = DAMAGED) -> None:
        """Something is damaged in a line, and ``lost`` says what is left out if it is borne. Raises Unreadable if it is not."""
        if not self.borne:
            raise Unreadable(self.name, why, repair, line)
        self.lost.append(f"Line {line}: {why} {lost}")

    def findings(self) -> tuple[Finding, ...]:
        """One finding for each thing lost, the last for all that are too many to tell."""
        told = [Finding(DAMAGED_RULE, Place(), "{lost}", values={"lost": lost}) for lost in self.lost[:_MOST]]
        if len(self.lost) > _MOST:
            more = str(len(self.lost) - _MOST)
            told.append(
                Finding(DAMAGED_RULE, Place(), "The same holds of {more} more places.", values={"more": more})
            )
        return tuple(told)
