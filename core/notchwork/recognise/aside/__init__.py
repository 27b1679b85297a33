"""What is drawn beside the pieces and is none: found, taken away and listed."""

from notchwork.recognise.aside.sheet import Sheet as Sheet
from notchwork.recognise.aside.sort_out import measured as measured
from notchwork.recognise.aside.sort_out import sort_out as sort_out
