"""Match labels become seams."""

from notchwork.recognise.labels.own import own_seams as own_seams
from notchwork.recognise.labels.own import without_signs as without_signs
from notchwork.recognise.labels.seams import seams_of as seams_of
