"""The week's page: which of the accepted puzzles are printed next, and where."""
