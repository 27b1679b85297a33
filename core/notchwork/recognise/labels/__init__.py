"""Match labels become seams."""

from notchwork.recognise.labels.seams import seams_of as seams_of
