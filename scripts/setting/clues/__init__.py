"""Clues of every kind that hold in a full grid, drawn at random, and slips of the pen in them."""
