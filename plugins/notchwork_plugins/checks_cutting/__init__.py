"""Checks of cut orders, copies, materials and unfolded pieces."""
