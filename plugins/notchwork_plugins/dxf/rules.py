"""What may be said of a DXF file."""

from __future__ import annotations

from notchwork.findings import Rule, Severity

_DXF = "The DXF reference of Autodesk"

ENCODING = Rule(
    id="dxf/encoding",
    title="How the text was read",
    rationale="Text outside plain English letters is written in one of many encodings, and a DXF file may say the wrong one or "
    "none. The wrong one garbles names and changes no line of the drawing.",
    source=f"{_DXF}, $DWGCODEPAGE, and UTF-8 from version AC1021 on; how likely words are is common practice, no source.",
    grade=Severity.INFO,
)

ENCODING_UNCLEAR = Rule(
    id="dxf/encoding-unclear",
    title="The text may be garbled",
    rationale="No encoding makes words of the text. It was read letter by letter, so that nothing of the drawing is lost, but "
    "names may be wrong.",
    source="Common practice, no source.",
    grade=Severity.WARNING,
)

REPEATED_BLOCK = Rule(
    id="dxf/repeated-block",
    title="Two blocks have the same name",
    rationale="A block is placed by its name, and a name stands for one block. Of two with the same name, which one belongs in "
    "a place cannot be told: the first is taken, and the others are read as blocks of their own.",
    source=f"{_DXF}, BLOCKS section.",
    grade=Severity.WARNING,
)

DAMAGED = Rule(
    id="dxf/damaged",
    title="Part of a damaged file is lost",
    rationale="The file breaks off or holds what cannot be read, and was read all the same because that was asked for. What is "
    "whole was kept; what is listed here is missing, and lines of the pattern may be missing with it.",
    source="The program's own; no outside source.",
    grade=Severity.WARNING,
)

AFTER_END = Rule(
    id="dxf/after-end",
    title="Something stands after the end of the file",
    rationale="A DXF file ends with EOF. What stands behind it is no part of the drawing; two files written one after "
    "another look like this.",
    source=f"{_DXF}, the end of a file.",
    grade=Severity.WARNING,
)

NOT_BY_RULES = Rule(
    id="dxf/not-by-rules",
    title="A piece is written with a block for each size",
    rationale="A grade rule moves a point of the sample size to its place in another size. A piece that has a point more in one size "
    "than in another, such as a cut line whose corner is bevelled only there, cannot be graded like that.",
    source="ASTM D6673-10 (withdrawn 2019), from memory.",
    grade=Severity.WARNING,
)

SIZES_RENAMED = Rule(
    id="dxf/sizes-renamed",
    title="A size has another name in the file",
    rationale="The list of sizes in a rule file parts their names by blanks, and is plain text.",
    source="ASTM D6673-10 (withdrawn 2019), from memory.",
    grade=Severity.INFO,
)

CUT_SHORT = Rule(
    id="dxf/cut-short",
    title="Words were too long for the file",
    rationale="A string of a DXF file of Release 12 has room for 255 bytes, and a letter that is not plain takes seven of them.",
    source=f"{_DXF}, group codes of strings.",
    grade=Severity.WARNING,
)

RULES = (
    ENCODING,
    ENCODING_UNCLEAR,
    REPEATED_BLOCK,
    DAMAGED,
    AFTER_END,
    NOT_BY_RULES,
    SIZES_RENAMED,
    CUT_SHORT,
)
