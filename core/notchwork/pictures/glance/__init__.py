"""The pattern at a glance: all pieces at one scale, seams paired by letters; and all sizes laid one on another."""

from notchwork.pictures.glance.drawing import glance_pictures as glance_pictures
from notchwork.pictures.glance.nested import nest_pictures as nest_pictures
