"""From one format to another, with what is lost on the way."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from notchwork.checks import Graded, judged
from notchwork.findings import NotchworkError
from notchwork.formats import Format, for_writing, goes_along, losses, suffix_of
from notchwork.formats import written as written_by
from notchwork.host import registry
from notchwork.jobs.drawn import by_ids
from notchwork.jobs.files import write_together
from notchwork.jobs.load import Loaded, checked_options, load
from notchwork.model import Pattern
from notchwork.values import frozen

if TYPE_CHECKING:
    from notchwork.draw import Options
    from notchwork.pages import Paper
    from notchwork.recognise import Options as Reading


@frozen
class Converted:
    """A pattern in another format: the files by path, in ``format``, and what is to be said of it (losses among it)."""

    pattern: Pattern
    format: Format
    files: Mapping[Path, bytes]
    findings: tuple[Graded, ...]


def convert(
    what: str | os.PathLike[str] | bytes,
    target: str | os.PathLike[str],
    from_format: str | None = None,
    to_format: str | None = None,
    options: Mapping[str, str] | None = None,
    drawing: Options | None = None,
    reading: Reading | None = None,
    paper: Paper | None = None,
) -> Converted:
    """Read a pattern and write it to ``target``, whose suffix chooses the format unless one is named.

    ``options`` are those of either format's own; ``reading`` says how a drawing is read, ``drawing`` what is drawn, where it is
    a format of drawings, and ``paper`` on what, where it has pages. All files are written or none. Raises NotchworkError, FaultyDocument where the document has faults.
    """
    loaded = load(what, None, from_format, options, reading, others=True)
    done = convert_loaded(loaded, target, to_format, options, drawing, paper)
    write_together(done.files)
    return done


def convert_loaded(
    loaded: Loaded,
    target: str | os.PathLike[str],
    to_format: str | None = None,
    options: Mapping[str, str] | None = None,
    drawing: Options | None = None,
    paper: Paper | None = None,
) -> Converted:
    """The same without reading or writing any file."""
    # No other command draws.
    from notchwork.draw import Options
    from notchwork.pages import Paper

    pattern = loaded.sound()
    chosen = for_writing(os.fspath(target), registry().formats, to_format)
    if drawing is not None and drawing != Options() and not chosen.draws:
        raise NotchworkError(
            chosen.title,
            "It is no drawing, so there is no choice of what is drawn.",
            "Leave out the options of drawing, or name a file in a format of drawings.",
        )
    if paper is not None and paper != Paper() and chosen.write_pages is None:
        raise NotchworkError(
            chosen.title,
            "It has no pages, so there is no choice of paper.",
            "Leave out the options of paper, or name a file in a format that has pages, such as .pdf.",
        )
    wanted = by_ids(pattern, drawing or Options())
    own = _writing(options or {}, loaded.format, chosen)
    written = written_by(pattern, chosen, own, wanted, paper or Paper())
    lost = losses(pattern, chosen, goes_along(chosen, own, wanted))
    findings = judged([*loaded.findings, *lost, *written.findings], pattern)
    return Converted(pattern, chosen, _named(written.files, Path(target), chosen), tuple(findings))


def _writing(options: Mapping[str, str], source: Format, target: Format) -> Mapping[str, str]:
    """The options for writing: those that only the format read has were meant for reading."""
    of_source, of_target = ({option.name for option in known.options} for known in (source, target))
    return checked_options(target, {k: v for k, v in options.items() if k in of_target or k not in of_source})


def _named(written: Mapping[str, bytes], target: Path, chosen: Format) -> Mapping[Path, bytes]:
    """The files by path: the one whose suffix fits, else the first, is the target; the others lie beside it.

    Further sheets (``.2.hpgl``) end as the target does (``.2.plt``), so that whatever takes one takes all.
    """
    suffix = suffix_of(target.name, chosen)
    stem = target.name[: -len(suffix)] if suffix else target.stem
    main = next((known for known in written if known == suffix), next(iter(written)))

    def beside(known: str) -> str:
        return stem + (known.removesuffix(main) + suffix if suffix and known.endswith(main) else known)

    return {
        target if known == main else target.with_name(beside(known)): data for known, data in written.items()
    }
