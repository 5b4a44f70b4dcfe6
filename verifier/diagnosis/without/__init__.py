"""Puzzles without a solution: what contradicts what."""
