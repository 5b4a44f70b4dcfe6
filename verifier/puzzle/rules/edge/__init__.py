"""Clues that stand outside the grid."""
