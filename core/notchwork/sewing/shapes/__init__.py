"""The figures that follow from a piece: corners trued, darts shut, pieces unfolded, cut lines, hems."""
