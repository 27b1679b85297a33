"""The part of a font that a file needs, as objects of PDF. Source: ISO 32000-1:2008, 9.6 to 9.10."""

from __future__ import annotations

import hashlib
import io
from typing import Any

from fontTools import subset
from pikepdf import Array, Dictionary, Name, Object, Pdf, Stream, String

from notchwork_plugins.pdf.fonts.face import Face

_KEPT = ("head", "hhea", "hmtx", "maxp", "loca", "glyf", "CFF ")
"""Tables that draw letters by their numbers; what letters mean stands in the file itself."""
_SYMBOLIC = 4
_MOST_AT_ONCE = 100
"""Lines in one section of a map of characters (Adobe Technical Note 5014, 1.4.1)."""


def embed(pdf: Pdf, font: Object, face: Face) -> None:
    """Fill in a font's dictionary: a Type 0 font whose codes are the numbers of its glyphs."""
    data = _part(face)
    name = Name(f"/{_tag(data)}+{face.postscript_name}")
    outlines = "CFF " in face.font
    file = Stream(pdf, data)
    if outlines:
        file.Subtype = Name.OpenType
    else:
        file.Length1 = len(data)
    head, hhea = face.font["head"], face.font["hhea"]
    share = 1000 / face.em
    box = [round(v * share) for v in (head.xMin, head.yMin, head.xMax, head.yMax)]
    descriptor = Dictionary(
        Type=Name.FontDescriptor,
        FontName=name,
        Flags=_SYMBOLIC,
        FontBBox=Array(box),
        ItalicAngle=0,
        Ascent=round(hhea.ascent * share),
        Descent=round(hhea.descent * share),
        CapHeight=round(hhea.ascent * share),
        StemV=80,
    )
    descriptor[Name.FontFile3 if outlines else Name.FontFile2] = file
    descendant = Dictionary(
        Type=Name.Font,
        Subtype=Name.CIDFontType0 if outlines else Name.CIDFontType2,
        BaseFont=name,
        CIDSystemInfo=Dictionary(Registry=String("Adobe"), Ordering=String("Identity"), Supplement=0),
        FontDescriptor=pdf.make_indirect(descriptor),
        DW=0,
        W=_widths(face),
    )
    if not outlines:
        descendant.CIDToGIDMap = Name.Identity
    whole: dict[str, Any] = {
        "/Type": Name.Font,
        "/Subtype": Name.Type0,
        "/BaseFont": name,
        "/Encoding": Name("/Identity-H"),
        "/DescendantFonts": Array([pdf.make_indirect(descendant)]),
        "/ToUnicode": Stream(pdf, _to_unicode(face).encode("ascii")),
    }
    for key, value in whole.items():
        font[key] = value


def _part(face: Face) -> bytes:
    """The font with the letters that are used, each under the number it had."""
    options = subset.Options(
        retain_gids=True,
        hinting=False,
        layout_features=[],
        name_IDs=[],
        notdef_outline=True,
        notdef_glyph=True,
        glyph_names=False,
        recalc_timestamp=False,
        drop_tables=[tag for tag in face.font.keys() if tag not in (*_KEPT, "GlyphOrder")],  # noqa: SIM118
    )
    copy = Face(face.name, face.data).font
    cutter = subset.Subsetter(options)
    cutter.populate(gids=sorted(face.used))
    cutter.subset(copy)
    out = io.BytesIO()
    copy.save(out, reorderTables=False)
    return out.getvalue()


def _tag(data: bytes) -> str:
    """Six letters that tell this part of a font from any other (9.6.4), the same for the same part."""
    return "".join(chr(ord("A") + byte % 26) for byte in hashlib.sha256(data).digest()[:6])


def _widths(face: Face) -> Array:
    entries: list[Any] = []
    for glyph in sorted(face.used):
        entries += [glyph, Array([round(1000 * face.width_of(glyph))])]
    return Array(entries)


def _to_unicode(face: Face) -> str:
    """What each glyph means, so that text can be searched and copied (9.10.3)."""
    lines = [
        f"<{glyph:04X}> <{letter.encode('utf-16-be').hex().upper()}>"
        for glyph, letter in sorted(face.used.items())
    ]
    sections = [lines[k : k + _MOST_AT_ONCE] for k in range(0, len(lines), _MOST_AT_ONCE)]
    return "\n".join(
        [
            "/CIDInit /ProcSet findresource begin 12 dict begin begincmap",
            "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
            "/CMapName /Adobe-Identity-UCS def /CMapType 2 def",
            "1 begincodespacerange <0000> <FFFF> endcodespacerange",
            *(
                line
                for section in sections
                for line in (f"{len(section)} beginbfchar", *section, "endbfchar")
            ),
            "endcmap CMapName currentdict /CMap defineresource pop end end",
            "",
        ]
    )
