"""What stands on each shelf of the corpus: the puzzles, their titles, their setters, their seeds."""
