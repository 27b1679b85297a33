"""The formats and the checks that come with the program, each through the same door as a stranger's."""
