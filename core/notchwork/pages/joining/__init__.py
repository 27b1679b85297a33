"""Pages that are joined: frames, match marks, and the tiles with what stands on them."""
