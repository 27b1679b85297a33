"""HP-GL and HP-GL/2: drawings for pen plotters and cutters."""
