"""How a drawing is to be read, as it is said on the command line."""

from __future__ import annotations

import re
from argparse import Namespace
from fractions import Fraction
from typing import TYPE_CHECKING

from notchwork.findings import NotchworkError

if TYPE_CHECKING:
    from notchwork.recognise import Options

_LENGTH = re.compile(r"\s*(\d+ \d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?)\s*(mm|cm|in|\")?\s*")
_MM = {None: 1.0, "mm": 1.0, "cm": 10.0, "in": 25.4, '"': 25.4}


def reading(arguments: Namespace) -> Options | None:
    """How a drawing is to be read, None where nothing is said. Raises NotchworkError for what cannot be meant."""
    stated: dict[str, object] = {}
    if arguments.outline is not None:
        stated["outline"] = arguments.outline
    for name in ("allowance", "tolerance"):
        if getattr(arguments, name) is not None:
            stated[name] = _length(f"--{name}", getattr(arguments, name))
    if arguments.scale is not None:
        stated["scale"] = _number("--scale", arguments.scale)
    if not stated:
        return None
    # Reading drawings takes longer to import than most commands take to run.
    from notchwork.recognise import Options

    try:
        return Options(**stated)  # type: ignore[arg-type]  # argparse has converted them
    except ValueError as error:
        option = "--outline cut" if "cut lines" in str(error) else "How the drawing is to be read"
        raise NotchworkError(option, f"{str(error)[:1].upper()}{str(error)[1:]}.", _example(error)) from error


def _example(error: ValueError) -> str:
    return "Add it, such as --allowance 10." if "cut lines" in str(error) else ""


def _length(option: str, text: str) -> float:
    found = _LENGTH.fullmatch(text)
    if found is None:
        raise NotchworkError(f"{option} {text}", "This is no length.", "Write it as 10, 10mm, 1cm or 3/8in.")
    return _value(option, found[1]) * _MM[found[2]]


def _number(option: str, text: str) -> float:
    if re.fullmatch(r"\d+/\d+|\d+(?:[.,]\d+)?", text.strip()) is None:
        raise NotchworkError(f"{option} {text}", "This is no number.", "Write it as 2, 0.5 or 1/4.")
    return _value(option, text.strip())


def _value(option: str, text: str) -> float:
    try:
        return float(sum(Fraction(part.replace(",", ".")) for part in text.split()))
    except ZeroDivisionError as error:
        raise NotchworkError(f"{option} {text}", "Nothing can be divided by 0.") from error
