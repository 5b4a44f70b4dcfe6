"""Puzzles one change away that keep the solution, one function a kind of rule."""
