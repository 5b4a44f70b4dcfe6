"""Puzzles with several solutions: where they differ, and what leaves one."""
