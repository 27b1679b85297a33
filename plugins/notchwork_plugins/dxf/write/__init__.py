"""Drawings written as DXF."""
