"""Every seam pinned at its stations, as a sewer lays it: flat and stitched where it fits, hanging off where it is too long."""

from notchwork.pictures.seam.card import seam_pictures as seam_pictures
