"""The options of a plot. They are declared at every start, so that nothing else is imported here."""

from __future__ import annotations

from typing import Final

from notchwork.formats import Option

DEFAULT: Final = "pen-a0"
MOST_OVERCUT: Final = 5.0
"""mm"""

OPTIONS: Final = (
    Option(
        "device",
        "the plotter or cutter: cutter-600, knife-600, pen-a0, pen-a3, pen-a4 or roll-36in; or FILE.toml for one of your own",
        DEFAULT,
    ),
    Option(
        "text",
        "how words are written where not as the profile says: strokes, labels (the device's own letters) or none",
    ),
    Option("overcut", "how far (mm) a knife cuts on past the start of a closed line, such as 0.5", "0"),
)
