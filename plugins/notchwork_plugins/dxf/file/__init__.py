"""A DXF file as it is written: tags, checked, in sections, blocks and entities; no meaning yet."""

from notchwork_plugins.dxf.file.entity import Block as Block
from notchwork_plugins.dxf.file.entity import Entity as Entity
from notchwork_plugins.dxf.file.entity import File as File
from notchwork_plugins.dxf.file.entity import Layer as Layer
from notchwork_plugins.dxf.file.errors import Unreadable as Unreadable
from notchwork_plugins.dxf.file.reading import opened as opened
from notchwork_plugins.dxf.file.units import Unit as Unit
from notchwork_plugins.dxf.file.units import unit_of as unit_of
from notchwork_plugins.dxf.file.vertices import corners as corners
