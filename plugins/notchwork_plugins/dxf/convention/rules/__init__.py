"""Grade rules of the convention: the table beside a file, how its numbers are meant, and blocks graded by it."""
