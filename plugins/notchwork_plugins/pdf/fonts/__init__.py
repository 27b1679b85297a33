"""Letters: which font has them, how wide they are, and the part of a font that goes into a file.

The fonts beside this module, DejaVu Sans and DejaVu Sans Bold 2.37, may be embedded and passed on: LICENSE-DejaVu.txt.
"""

from notchwork_plugins.pdf.fonts.faces import Faces as Faces
from notchwork_plugins.pdf.fonts.faces import Run as Run
from notchwork_plugins.pdf.fonts.given import given as given
