"""DXF: what plotters, cutters and pattern shops take."""
