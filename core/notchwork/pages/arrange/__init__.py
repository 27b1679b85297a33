"""Layout on shapes alone: pieces whole on pages or on a roll, or in grids of pages. No words, no marks."""

from notchwork.pages.arrange.laid import arranged as arranged
from notchwork.pages.arrange.placed import DoesNotFit as DoesNotFit
from notchwork.pages.arrange.placed import Island as Island
from notchwork.pages.arrange.placed import Placed as Placed
from notchwork.pages.arrange.shape import Shape as Shape
from notchwork.pages.arrange.shape import shape_of as shape_of
from notchwork.pages.arrange.tiling import islands as islands
from notchwork.pages.arrange.ways import fits as fits
