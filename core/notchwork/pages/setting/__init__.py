"""What stands on sheets beside the pieces: one pen, words in columns, names of pages."""
