"""Pages to be read: the first ones, with test squares and what is to be cut, and the plan of assembly."""
