"""One fault as data: where, by how much in each size, and the words over its measures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from notchwork.findings.place import Place
from notchwork.findings.rule import Rule
from notchwork.values import frozen


@frozen
class Row:
    """The fault in one size (None where the pattern has one size only).

    ``off`` is how far outside what is accepted exactly, in the unit of the rule's tolerance; its sign is kept and its
    magnitude graded. ``measured`` and ``expected`` are in the same unit unless the rule states another. ``values`` stand in
    for the finding's values in this size, and ``place`` for its place.
    """

    size: str | None = None
    off: float = 0.0
    measured: float | None = None
    expected: float | None = None
    values: Mapping[str, object] = field(default_factory=dict)
    place: Place | None = None


@frozen
class Finding:
    """One fault, with a row for every size that was looked at.

    ``text`` and ``hint`` are templates over ``values`` (see ``worded``): what is wrong, and what to do. The text is a
    sentence that begins with a capital letter; which seam or piece and which size is put before it. A rule with a
    tolerance needs rows: those that reach no step are taken as right, and a finding without any other is dropped. A rule
    with a fixed severity needs none, and every row it has counts as wrong.

    ``pieces`` are the ids of all pieces concerned. ``tape``: a measure was taken by tape. ``also`` are further places of
    the same fault.
    """

    rule: Rule
    place: Place
    text: str
    hint: str = ""
    values: Mapping[str, object] = field(default_factory=dict)
    rows: tuple[Row, ...] = ()
    pieces: tuple[str, ...] = ()
    also: tuple[Place, ...] = ()
    tape: bool = False
