"""The corners as sewn: where a seam ends and at folds, whether the edges beyond run on into each other."""

from notchwork.pictures.corner.corner import CornerPicture as CornerPicture
from notchwork.pictures.corner.corner import corner_pictures as corner_pictures
