"""Notchwork: an open format for sewing patterns, and a checker that says whether a pattern will sew together.

The public Python interface is :mod:`notchwork.jobs`; the rooms below it are described in DEVELOPERS.md.
"""

__version__ = "0.1.0"
