"""The error about a file that cannot be read, and the repairs that it offers."""

from __future__ import annotations

from notchwork.findings import NotchworkError

AGAIN = "Export it again from the program that made it, as DXF."
DAMAGED = (
    "Export it again; if that cannot be done, “-O damaged=read” reads what is whole and lists what is lost."
)
COMMA = "Have the program that made it write decimals with a point: often its language settings decide that."


class Unreadable(NotchworkError):
    """These bytes are no DXF file, or one that is damaged."""
