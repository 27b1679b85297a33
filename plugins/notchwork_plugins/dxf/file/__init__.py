"""A DXF file as it is written: tags, checked, in sections, blocks and entities; no meaning yet."""
