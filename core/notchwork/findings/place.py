"""Where a finding is, by the names its maker gave."""

from __future__ import annotations

from notchwork.values import frozen


@frozen
class Place:
    """The maker's ids of whatever the finding is about; all optional.

    ``line`` is an edge or inner line of ``piece``; ``point`` is x + iy in mm on the piece as drawn; ``pointer`` is a JSON
    pointer, stated only where the names do not lead to the place.
    """

    seam: str | None = None
    piece: str | None = None
    line: str | None = None
    notch: str | None = None
    dart: str | None = None
    pleat: str | None = None
    mark: str | None = None
    opening: str | None = None
    notion: str | None = None
    material: str | None = None
    point: complex | None = None
    pointer: str | None = None
