"""What can be said on the command line. Nothing is imported here that ``--help`` would have to wait for."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from types import MappingProxyType
from typing import NoReturn

from notchwork import __version__
from notchwork.cli.streams import say

_DESCRIPTION = "Says whether a sewing pattern will sew together before any cloth is cut."

_EPILOG = """\
Exit codes: 0 sound, or done; 1 there are findings; 2 it could not be done. A document
with faults in how it is written is 1 from check, 0 from report, which writes a page of
them, and 2 from all others.
Nothing here replaces a trial version: sew one before cutting cloth that cannot be replaced.
"""


class _Parser(argparse.ArgumentParser):
    """A mistake on the command line is one line; a help that cannot be written is told, not swallowed."""

    def print_help(self, file: object = None) -> None:
        say(self.format_help(), end="")

    def error(self, message: str) -> NoReturn:
        from notchwork.findings import safe

        self.exit(2, safe(f"{self.prog}: {message} (see {self.prog} --help)") + "\n")


def parser() -> argparse.ArgumentParser:
    """The parser of every command; ``module`` names the one of this room that runs it."""
    top = _Parser(
        prog="notchwork",
        description=_DESCRIPTION,
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action="version", version=f"notchwork {__version__}")
    commands = top.add_subparsers(title="commands", metavar="COMMAND", required=True, parser_class=_Parser)

    def command(name: str, module: str, does: str) -> argparse.ArgumentParser:
        added = commands.add_parser(name, help=does, description=does[:1].upper() + does[1:] + ".")
        added.set_defaults(module=module)
        return added

    check = command("check", "check", "say what will not sew together, where, by how much, and what to do")
    _files(check)
    _judging(check, "warning")
    check.add_argument(
        "-v", "--verbose", action="store_true", help="show small remarks and accepted findings too"
    )
    _reading(
        check,
        {
            "line": "a line for each finding",
            "sarif": "SARIF 2.1.0",
            "junit": "JUnit XML",
            "github": "annotations of a GitHub workflow",
        },
    )

    report = command(
        "report", "report", "write a page to look at: the verdict, every seam drawn, what to cut"
    )
    report.add_argument("file", metavar="FILE", help="a pattern, or - for standard input")
    report.add_argument(
        "-o",
        dest="output",
        metavar="PAGE",
        help="the page to write, or - for standard output (default: beside FILE, ending in .html)",
    )
    report.add_argument(
        "--pictures", metavar="FOLDER", help="write every picture of the page as an SVG file, too"
    )
    _judging(report, None)
    _format_read(report)

    walk = command("walk", "measure", "walk seams from station to station, in every size")
    walk.add_argument("file", metavar="FILE", help="a pattern, or - for standard input")
    walk.add_argument("seams", nargs="*", metavar="SEAM", help="the seams to walk (default: all)")
    _reading(walk)
    walk.set_defaults(what="walk")

    describe = command("describe", "measure", "measure every piece, edge and seam, in every size")
    _files(describe)
    _reading(describe)
    describe.set_defaults(what="describe")

    convert = command("convert", "convert", "write a pattern in another format")
    convert.add_argument("source", metavar="IN", help="the pattern to read, or - for standard input")
    convert.add_argument(
        "target",
        metavar="OUT",
        help="the file to write, whose suffix chooses the format, or - for standard output",
    )
    convert.add_argument(
        "--from",
        dest="from_format",
        metavar="FORMAT",
        help="the format of IN, where neither suffix nor content tells",
    )
    convert.add_argument(
        "--to", dest="to_format", metavar="FORMAT", help="the format of OUT, where the suffix does not tell"
    )
    convert.add_argument(
        "-O",
        dest="options",
        action="append",
        default=[],
        metavar="KEY=VALUE",
        help="an option of either format's own",
    )
    _read_drawing(convert)
    _drawing(convert)
    _paper(convert)

    explain = command(
        "explain", "about", "tell the reason and the source of a rule, and how to have it otherwise"
    )
    explain.add_argument(
        "rules",
        nargs="+",
        metavar="RULE",
        help="the id of a rule, such as seams/unequal-length, or a family of rules, such as seams",
    )
    explain.set_defaults(what="explain")

    command("checks", "about", "list all checks").set_defaults(what="checks")
    formats = command("formats", "about", "list all formats, or the options of one")
    formats.add_argument(
        "formats", nargs="*", metavar="FORMAT", help="tell the options of this format (default: list all)"
    )
    formats.set_defaults(what="formats")

    schema = command("schema", "about", "print a JSON Schema: of the open format, or of the reports")
    schema.add_argument(
        "name", nargs="?", default="pattern", metavar="NAME", help="pattern (default) or report"
    )
    schema.set_defaults(what="schema")

    demo = command("demo", "demo", "write an example pattern, sound and faulty, and check both")
    demo.add_argument(
        "folder",
        nargs="?",
        default="notchwork-demo",
        metavar="FOLDER",
        help="where to write it (default: notchwork-demo)",
    )
    return top


def _files(command: argparse.ArgumentParser) -> None:
    command.add_argument("files", nargs="+", metavar="FILE", help="patterns, or - for standard input")


def _judging(command: argparse.ArgumentParser, fail_on: str | None) -> None:
    command.add_argument(
        "--only",
        action="append",
        default=[],
        metavar="CHECK",
        help="run only this check or family of checks; may be given several times, or with commas between",
    )
    command.add_argument(
        "--fail-on",
        choices=("info", "warning", "error"),
        default=fail_on,
        help=f"exit with 1 at findings this bad or worse (default: {fail_on or 'never'})",
    )


def _reading(command: argparse.ArgumentParser, further: Mapping[str, str] = MappingProxyType({})) -> None:
    """How files are read and the result is printed; ``further`` ways to print it, each with what it is."""
    told = "".join(f", {name}: {what}" for name, what in further.items())
    command.add_argument(
        "--format",
        choices=("text", "json", *further),
        default="text",
        help=f"how to print the result (default: text{told})",
    )
    _format_read(command)


def _format_read(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--from",
        dest="from_format",
        metavar="FORMAT",
        help="the format of the files, where neither suffix nor content tells",
    )
    command.add_argument(
        "-O",
        dest="options",
        action="append",
        default=[],
        metavar="KEY=VALUE",
        help="an option of the format's own",
    )
    _read_drawing(command)


def _read_drawing(command: argparse.ArgumentParser) -> None:
    group = command.add_argument_group("how a drawing is read (lengths are in mm unless they say cm or in)")
    group.add_argument(
        "--outline",
        choices=("stitch", "cut"),
        help="what the only outline of a piece is: the line that is sewn, or the line that is cut",
    )
    group.add_argument(
        "--allowance", metavar="WIDTH", help="the allowance inside cut lines, such as 10, 1cm or 3/8in"
    )
    group.add_argument(
        "--tolerance", metavar="WIDTH", help="how near strokes must come to touch (default: 0.5)"
    )
    group.add_argument(
        "--scale", metavar="NUMBER", help="how many mm of cloth a mm of the drawing is (default: as it says)"
    )


def _drawing(command: argparse.ArgumentParser) -> None:
    group = command.add_argument_group("what is drawn, where OUT is a drawing")
    group.add_argument(
        "--piece",
        dest="pieces",
        action="append",
        default=[],
        metavar="PIECE",
        help="draw only this piece; may be given several times",
    )
    group.add_argument(
        "--size",
        dest="sizes",
        action="append",
        default=[],
        metavar="SIZE",
        help="draw only this size; may be given several times",
    )
    group.add_argument(
        "--material",
        dest="materials",
        action="append",
        default=[],
        metavar="MATERIAL",
        help="draw only the pieces that are cut from this material; may be given several times",
    )
    group.add_argument(
        "--copies", action="store_true", help="draw each piece as many times as it is cut, not once"
    )
    group.add_argument("--unfold", action="store_true", help="draw pieces on a fold whole")
    group.add_argument("--no-allowance", action="store_true", help="draw stitch lines only, no cut lines")
    group.add_argument(
        "--no-document",
        action="store_true",
        help="leave out the pattern's document, without which seams and notions are lost",
    )


def _paper(command: argparse.ArgumentParser) -> None:
    group = command.add_argument_group(
        "the paper, where OUT has pages (lengths are in mm unless they say cm or in)"
    )
    group.add_argument(
        "--paper",
        metavar="PAPER",
        help="A4, Letter, A0, “300x400 mm”, “36 in roll” …; A4+Letter for pages that fit both "
        "(default: A4, or Letter where the pattern counts in inches)",
    )
    group.add_argument(
        "--layout",
        choices=("tiles", "sheet", "projector"),
        help="pages to be joined, one sheet with everything, or one page of light "
        "(default: tiles up to A3, a sheet on larger paper)",
    )
    group.add_argument(
        "--join",
        choices=("overlap", "butt"),
        default="overlap",
        help="lay pages over each other, or trim them and join them edge to edge (default: overlap)",
    )
    group.add_argument(
        "--margin", metavar="WIDTH", help="what the printer leaves free at each edge (default: 10)"
    )
    group.add_argument("--overlap", metavar="WIDTH", help="how far pages lie over each other (default: 10)")
    group.add_argument(
        "--turn",
        choices=("free", "quarter", "grain", "drawn"),
        help="turn pieces by any angle so that they lie well, by quarter turns, so that the grain runs along the paper, "
        "or not at all (default: free; grain where cloth is cut)",
    )
    group.add_argument("--bold", action="store_true", help="wide lines, to be seen from afar")
