"""Lines of words that belong together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from notchwork.drawing import Text
from notchwork.recognise.shape import Seen, Shape

LEAST, LINE, EMPTY_LINE = 0.7, 2.1, 2.7
"""Heights of type from one base line to the next; the last with an empty line between them."""
EXACTLY, ROUGHLY = 0.02, 0.6
"""Heights of type by which lines below each other may begin to the side."""


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
    if above.height <= 0.0:
        # Files leave the height out; then nothing says how far apart lines of one paragraph stand.
        return False
    turn = np.exp(-1j * np.radians(above.angle))
    step = (below.at - above.at) * turn
    sideways = min(abs(step.real), abs(((below.box[0] - above.box[0]) * turn).real)) / above.height
    # Lines of one block begin exactly below each other, also where an empty one lies between them.
    most = EMPTY_LINE if sideways <= EXACTLY else LINE
    return bool(sideways <= ROUGHLY and LEAST <= -step.imag / above.height <= most)


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
