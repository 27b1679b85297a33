"""The convention for sewn products, as far as it is known: ANSI/AAMA 292, ASTM D6673 (withdrawn 2019). It is followed, no more.

Nothing is imported here: the format's rules stand in ``told``, and a command that reads no DXF pays for no reader.
"""
