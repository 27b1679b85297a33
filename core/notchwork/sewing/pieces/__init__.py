"""A piece in all sizes: its lines and marks with grades resolved, places along its edges, and what is symmetric about it."""
