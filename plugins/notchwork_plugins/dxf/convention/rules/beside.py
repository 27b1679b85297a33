"""The rule file beside a drawing: its text, and whether it is the one that the drawing means."""

from __future__ import annotations

from notchwork.findings import safe
from notchwork_plugins.dxf.convention.rules.table import Table
from notchwork_plugins.dxf.convention.told import OTHER_RULES, Told


def tell_other(table: Table, sample: str | None, name: str | None, told: Told) -> None:
    """Say where a drawing's sample size or rule table is not that of the rule file."""
    for what, here, there in (
        ("sample size", sample, table.sample),
        ("rule table", name, table.name),
    ):
        if here is not None and there is not None and here.casefold() != there.casefold():
            told.add(
                OTHER_RULES,
                "The {what} of the drawing is “{here}”, that of the rule file is “{there}”.",
                "See whether the rule file is that of this drawing; rules=none reads the sample size alone.",
                what=what,
                here=safe(here[:60]),
                there=safe(there[:60]),
            )


def decoded(data: bytes, encoding: str) -> str:
    """The text of a rule file, in the encoding of the drawing where it is no UTF-8."""
    for name in ("utf-8-sig", encoding, "latin-1"):
        try:
            return data.decode(name)
        except (UnicodeDecodeError, LookupError):
            continue
    return ""
