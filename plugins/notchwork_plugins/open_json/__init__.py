"""The open format, declared like any other."""
