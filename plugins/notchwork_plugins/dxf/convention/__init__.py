"""The sewn-products convention: pieces in blocks, meanings by the number of the layer."""
