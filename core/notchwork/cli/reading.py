"""How a drawing is to be read, as it is said on the command line."""

from __future__ import annotations

from argparse import Namespace
from typing import TYPE_CHECKING

from notchwork.cli.lengths import length, number
from notchwork.findings import NotchworkError

if TYPE_CHECKING:
    from notchwork.recognise import Options


def reading(arguments: Namespace) -> Options | None:
    """How a drawing is to be read, None where nothing is said. Raises NotchworkError for what cannot be meant."""
    stated: dict[str, object] = {}
    if arguments.outline is not None:
        stated["outline"] = arguments.outline
    for name in ("allowance", "tolerance"):
        if getattr(arguments, name) is not None:
            stated[name] = length(f"--{name}", getattr(arguments, name))
    if arguments.scale is not None:
        stated["scale"] = number("--scale", arguments.scale)
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
