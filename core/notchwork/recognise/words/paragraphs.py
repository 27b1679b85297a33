"""Lines of words that belong together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from notchwork.drawing import Text
from notchwork.recognise.shape import Seen, Shape


def paragraphs(texts: Sequence[Text]) -> Iterator[list[Text]]:
    """Lines of one height that follow each other below each other."""
    lines: list[Text] = []
    for text in texts:
        if lines and not follows(lines[-1], text):
            yield lines
            lines = []
        lines.append(text)
    if lines:
        yield lines


def follows(above: Text, below: Text) -> bool:
    """Whether a line stands right below another of the same height."""
    if abs(above.height - below.height) > 0.05 * above.height or abs(above.angle - below.angle) > 1.0:
        return False
    step = (below.at - above.at) * np.exp(-1j * np.radians(above.angle))
    left = [text.box[0] * np.exp(-1j * np.radians(text.angle)) for text in (above, below)]
    aligned = min(abs(step.real), abs((left[1] - left[0]).real)) <= 0.6 * above.height
    return bool(aligned and 0.7 * above.height <= -step.imag <= 2.1 * above.height)


def whole_paragraphs(seen: Seen) -> list[Shape]:
    """The shapes, each with all lines of a paragraph of which it has some: its head may stand far off."""
    free = list(seen.texts)
    shapes: list[Shape] = []
    for shape in seen.shapes:
        texts = list(shape.texts)
        grown = bool(texts)
        while grown:
            grown = False
            for text in free:
                here = replace(text, at=text.at - shape.shift)
                below = next((k for k, other in enumerate(texts) if follows(here, other)), None)
                above = next((k for k, other in enumerate(texts) if follows(other, here)), None)
                if below is not None or above is not None:
                    texts.insert(below if below is not None else (above or 0) + 1, here)
                    free.remove(text)
                    grown = True
                    break
        shapes.append(replace(shape, texts=tuple(texts)) if len(texts) > len(shape.texts) else shape)
    return shapes
