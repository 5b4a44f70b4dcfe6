"""Techniques for marks, lines and clues at the edge, in families; they do not import one another."""
