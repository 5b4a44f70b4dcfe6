"""Changes to a puzzle, and the proof that they mend it."""
