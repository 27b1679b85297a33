"""What stands round the blocks of a valid R12 file: header and tables.

Source: the DXF reference of Autodesk, as it stood for Release 12.
"""

from __future__ import annotations

from collections.abc import Iterable

from notchwork_plugins.dxf.attached import APPLICATION
from notchwork_plugins.dxf.convention import layers
from notchwork_plugins.dxf.write import tags

COLOURS = {
    layers.BOUNDARY: 7,
    layers.MIRROR: 4,
    layers.GRAIN: 3,
    layers.SEW_LINES: 5,
    layers.ANNOTATION: 8,
}
"""Numbers of colours; every other layer is red. They are for the eye only and mean nothing."""
OTHERS = 1


def header(low: str, high: str) -> str:
    """The release, and the corners (as tags) of all that is drawn."""
    return tags.section(
        "HEADER",
        [
            "9\n$ACADVER\n1\nAC1009\n",
            "9\n$INSBASE\n10\n0.0\n20\n0.0\n30\n0.0\n",
            f"9\n$EXTMIN\n{low}",
            f"9\n$EXTMAX\n{high}",
        ],
    )


def tables(used: Iterable[int]) -> str:
    """Line types, layers, one style of type, and the application whose extended data go along."""
    names = [("0", 7), *((str(layer), COLOURS.get(layer, OTHERS)) for layer in sorted(used))]
    layer_entries = [f"0\nLAYER\n2\n{name}\n70\n0\n62\n{colour}\n6\nCONTINUOUS\n" for name, colour in names]
    style = "0\nSTYLE\n2\nSTANDARD\n70\n0\n40\n0.0\n41\n1.0\n50\n0.0\n71\n0\n42\n2.5\n3\ntxt\n4\n\n"
    applications = [f"0\nAPPID\n2\n{name}\n70\n0\n" for name in ("ACAD", APPLICATION)]
    return tags.section(
        "TABLES",
        [
            tags.table("LTYPE", ["0\nLTYPE\n2\nCONTINUOUS\n70\n0\n3\nSolid line\n72\n65\n73\n0\n40\n0.0\n"]),
            tags.table("LAYER", layer_entries),
            tags.table("STYLE", [style]),
            tags.table("APPID", applications),
        ],
    )
