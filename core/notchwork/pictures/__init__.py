"""What a dressmaker looks at: each seam pinned at its stations, corners as sewn, the pattern at a glance; as SVG."""

from notchwork.pictures.picture import Picture as Picture
from notchwork.pictures.picture import inline as inline
from notchwork.pictures.picture import standalone as standalone
from notchwork.pictures.roles import PATTERNS as PATTERNS
from notchwork.pictures.roles import STYLE as STYLE
