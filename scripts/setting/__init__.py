"""Setting puzzles for the corpus: full grids, cages, givens, faults, files. Nothing here ships."""
