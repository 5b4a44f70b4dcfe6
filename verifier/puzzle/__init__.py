"""Puzzles as values: cells, houses, cages, sums; reading and writing files. Nothing here solves."""
