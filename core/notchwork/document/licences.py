"""Licences by their SPDX identifiers: those that patterns are likely to carry."""

from __future__ import annotations

import re
from collections.abc import Iterator

from notchwork.document.faults import UNKNOWN_LICENCE, fault
from notchwork.document.nearest import nearest
from notchwork.findings import Finding

# From memory of the SPDX License List (spdx.org/licenses): all Creative Commons licences for works that are not software,
# and the free licences that are most used beside them.
_CREATIVE_COMMONS = tuple(
    f"CC-{terms}-{version}"
    for terms in ("BY", "BY-SA", "BY-NC", "BY-NC-SA", "BY-ND", "BY-NC-ND")
    for version in ("1.0", "2.0", "2.5", "3.0", "4.0")
)
KNOWN = (
    *_CREATIVE_COMMONS,
    *(
        "CC0-1.0",
        "CC-PDDC",
        "PDDL-1.0",
        "ODbL-1.0",
        "ODC-By-1.0",
        "LAL-1.2",
        "LAL-1.3",
        "OFL-1.1",
        "Unlicense",
        "WTFPL",
    ),
    *(
        "CERN-OHL-P-2.0",
        "CERN-OHL-S-2.0",
        "CERN-OHL-W-2.0",
        "GFDL-1.2-only",
        "GFDL-1.2-or-later",
        "GFDL-1.3-only",
    ),
    *(
        "GFDL-1.3-or-later",
        "0BSD",
        "Apache-2.0",
        "BSD-2-Clause",
        "BSD-3-Clause",
        "EUPL-1.2",
        "ISC",
        "MIT",
        "MIT-0",
    ),
    *("MPL-2.0", "AGPL-3.0-only", "AGPL-3.0-or-later", "GPL-2.0-only", "GPL-2.0-or-later", "GPL-3.0-only"),
    *("GPL-3.0-or-later", "LGPL-2.1-only", "LGPL-2.1-or-later", "LGPL-3.0-only", "LGPL-3.0-or-later", "Zlib"),
)

_OPERATORS = re.compile(r"\s*(?:\(|\)|\bAND\b|\bOR\b|\bWITH\b)\s*")


def licence_faults(licence: str | None) -> Iterator[Finding]:
    """An info for each identifier of the expression that is not known."""
    for name in filter(None, _OPERATORS.split(licence or "")):
        if name not in KNOWN and not name.startswith("LicenseRef-"):
            suggestion = nearest(name, KNOWN)
            yield fault(
                UNKNOWN_LICENCE,
                "/license",
                '"{name}" is not known as the identifier of a licence.',
                'Did you mean "{suggestion}"?'
                if suggestion
                else "Use an SPDX identifier such as CC-BY-SA-4.0, or a name of your own as LicenseRef-name.",
                name=name,
                suggestion=suggestion,
            )
