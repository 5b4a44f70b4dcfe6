"""What can be told of a puzzle before anything is solved: arithmetic, clues that never hold, a claim."""
