"""What is told of one finding, as every rendering for people words it: the sentence, what to do, and the figures by size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from notchwork.checks import Graded, Names, also_at, also_in, hint, in_sizes, right_in, sentence
from notchwork.findings import MeasureUnit, Row, Severity, measure_of, worded
from notchwork.sewing.names import capital
from notchwork.values import frozen


@frozen
class Told:
    """``text`` says what is wrong and in which sizes, under a heading that says where; ``hint`` what to do.

    ``table`` has a heading row and one row for every size that is wrong, sizes with the same figures in one; it is empty
    where the text says it all.
    """

    text: str
    hint: str
    table: tuple[tuple[str, ...], ...]


def told(graded: Graded, names: Names) -> Told:
    """The words of a finding in the person's unit. Neither of two figures is called the right one: who is guilty is not presumed."""
    by_sizes = _by_sizes(graded, names)
    table = _table(graded, by_sizes, names)
    head = in_sizes(graded, names, unequal=len({off for *_, off in by_sizes.values()}) > 1)
    parts = (
        (f"{capital(head)}: " if head else "") + sentence(graded, names),
        also_in(graded, names) if not table and not head.startswith("every") else "",
        right_in(graded, names),
        also_at(graded, names),
    )
    return Told(" ".join(part for part in parts if part), hint(graded, names), table)


def speaks(graded: Graded) -> bool:
    """Whether it is told without being asked for: above info, and not accepted on purpose."""
    return graded.severity >= Severity.WARNING and graded.accepted is None


def _table(
    graded: Graded, by_sizes: Mapping[str, Sequence[str]], names: Names
) -> tuple[tuple[str, ...], ...]:
    if graded.tolerance is None or len(by_sizes) < 2:
        return ()
    off_by = {"mm": f"off by ({names.unit})", "percent": "off by (%)"}.get(graded.tolerance.unit, "off by")
    with_figures = any(measured and expected for measured, expected, _ in by_sizes.values())
    heads = ("size", "measured", "against", off_by) if with_figures else ("size", off_by)
    rows = ((sizes, *(figures if with_figures else figures[-1:])) for sizes, figures in by_sizes.items())
    return (heads, *rows)


def _by_sizes(graded: Graded, names: Names) -> dict[str, list[str]]:
    """The figures of the wrong sizes, those that look the same together: what "S, M" measure, against what, how far off."""
    if graded.tolerance is None:
        return {}
    sizes: dict[tuple[str, ...], list[str]] = {}
    for row in (graded_row.row for graded_row in graded.rows):
        figures = _figures(row, graded.tolerance.unit, graded.rule.measured_in, names)
        sizes.setdefault(figures, []).append(row.size or "")
    return {", ".join(alike): list(figures) for figures, alike in sizes.items()}


def _figures(row: Row, unit: MeasureUnit, measured_in: MeasureUnit | None, names: Names) -> tuple[str, ...]:
    """Worded together, so that what differs looks different."""
    stated = (row.measured, measured_in or unit), (row.expected, measured_in or unit), (abs(row.off), unit)
    known = {str(k): measure_of(value, of) for k, (value, of) in enumerate(stated) if value is not None}
    template = "|".join(f"{{{k}:bare}}" if str(k) in known else "" for k in range(len(stated)))
    return tuple(worded(template, known, names.unit).split("|"))
