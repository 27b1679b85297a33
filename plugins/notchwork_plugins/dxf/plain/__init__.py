"""General CAD drawings: lines of any kind, nested blocks, layers; as strokes without meaning."""
