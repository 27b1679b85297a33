"""DXF: drawings of general CAD programs, and the convention of the sewn-products trade."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from notchwork.formats import DRAWN, Format, Option, Read, Source, Written
from notchwork.host import hookimpl
from notchwork_plugins.dxf.convention.told import RULES as CONVENTION_RULES
from notchwork_plugins.dxf.plain.rules import PLAIN_RULES
from notchwork_plugins.dxf.rules import RULES
from notchwork_plugins.dxf.settings import one_of
from notchwork_plugins.dxf.write.options import BARE_OPTIONS, CAD_OPTIONS, carries_comments
from notchwork_plugins.dxf.write.options import OPTIONS as WRITING

if TYPE_CHECKING:
    from notchwork.drawing import Drawing

READING: Final = (
    Option("kind", "what the file is read as, where it is told wrongly: convention or plain"),
    Option("encoding", "in which encoding its text is, such as gbk, big5, shift_jis, cp1251 or cp1252"),
    Option(
        "units",
        "what the file counts in where it does not say so or says it wrongly: mm, cm, m, in, ft, metric (mm) or english (inches); "
        "a file that is written counts in mm, or with english in inches",
    ),
    Option("damaged", "refuse a damaged file, or read what is whole of it and list what is lost", "refuse"),
    Option(
        "deltas",
        "what a rule file states: cumulative (shifts from the sample size) or stepwise (from size to size)",
    ),
    Option("rules", "the suffix of the rule file beside the drawing, or none", ".rul"),
    Option("chord", "how far (mm) straight lines may lie beside the curves that they stand for", "0.05"),
)

_READ = frozenset(option.name for option in READING)
_OF_THE_TRADE = {"mm": "metric", "in": "english"}
"""The convention knows two units, by these names."""


def sniff(start: bytes) -> bool:
    """Whether it begins as DXF does: a binary file's name, or a section after comments."""
    if start.startswith(b"AutoCAD Binary DXF"):
        return True
    lines = start.removeprefix(b"\xef\xbb\xbf").replace(b"\r\n", b"\n").replace(b"\r", b"\n").split(b"\n")
    at = 0
    while at + 1 < len(lines) and lines[at].strip() == b"999":
        at += 2
    return [line.strip().upper() for line in lines[at : at + 2]] == [b"0", b"SECTION"]


def read(source: Source, options: Mapping[str, str]) -> Read:
    """Either kind as a drawing. Raises NotchworkError."""
    # The readers take longer to import than most commands take to run.
    from notchwork_plugins.dxf.convention.kind import is_convention, nearly
    from notchwork_plugins.dxf.convention.read import read as read_convention
    from notchwork_plugins.dxf.file import opened
    from notchwork_plugins.dxf.plain.read import read as read_plain

    kind = one_of(options, "kind", ("convention", "plain"))
    damaged = one_of(options, "damaged", ("refuse", "read")) == "read"
    file = opened(source, options.get("encoding"), damaged)
    if kind == "convention" or (kind is None and is_convention(file)):
        units = options.get("units", "")
        trade = {"units": _OF_THE_TRADE[units]} if units in _OF_THE_TRADE else {}
        return read_convention(file, source, {**options, **trade})
    done = read_plain(file, source, options)
    return replace(done, findings=(*done.findings, *nearly(file))) if kind is None else done


def write(drawing: Drawing, options: Mapping[str, str]) -> Written:
    """The convention as valid Release 12. Raises NotchworkError."""
    from notchwork_plugins.dxf.write.convention import write_valid

    return write_valid(drawing, options)


def write_bare(drawing: Drawing, options: Mapping[str, str]) -> Written:
    """The convention with blocks and entities only. Raises NotchworkError."""
    from notchwork_plugins.dxf.write import convention

    return convention.write_bare(drawing, options)


def write_cad(drawing: Drawing, options: Mapping[str, str]) -> Written:
    """A plain drawing as Release 2010. Raises NotchworkError."""
    from notchwork_plugins.dxf.write import cad

    return cad.write_cad(drawing, options)


DXF = Format(
    name="dxf",
    title="DXF drawing",
    suffixes=(".dxf",),
    sniff=sniff,
    read=read,
    write_drawing=write,
    carries=DRAWN,
    attaches=True,
    options=(*READING, *(option for option in WRITING if option.name not in _READ)),
    rules=(*RULES, *PLAIN_RULES, *CONVENTION_RULES),
)

BARE = Format(
    name="dxf_bare",
    title="DXF of blocks and entities only, for programs of the sewn-products trade",
    suffixes=(".bare.dxf",),
    sniff=lambda start: False,
    write_drawing=write_bare,
    carries=DRAWN,
    attaches=carries_comments,
    options=BARE_OPTIONS,
    rules=RULES,
)


CAD = Format(
    name="dxf_cad",
    title="DXF for cutters and general CAD programs, a layer for each meaning",
    suffixes=(".cad.dxf",),
    sniff=lambda start: False,
    write_drawing=write_cad,
    carries=DRAWN,
    attaches=True,
    options=CAD_OPTIONS,
    rules=RULES,
)


@hookimpl
def notchwork_formats() -> tuple[Format, ...]:
    return (DXF, BARE, CAD)
