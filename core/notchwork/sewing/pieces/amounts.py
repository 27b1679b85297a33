"""A stated number in every size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from notchwork.model import Sized
from notchwork.sewing.pieces.lines import Floats


def by_size(value: Sized | None, sizes: Sequence[str | None]) -> Floats:
    """A number in every size, shape (sizes,); NaN where it is not stated."""
    if value is None:
        return np.full(len(sizes), np.nan)
    if isinstance(value, Mapping):
        return np.array(
            [value.get(size, np.nan) if size is not None else np.nan for size in sizes], dtype=float
        )
    return np.full(len(sizes), float(value))
