"""Drawings of general CAD programs: lines as lines, whatever they stand for."""
