"""Copies and layers: how often every interval of an edge is sewn, and what is left over or forgotten."""
