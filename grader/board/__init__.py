"""The board, its steps, and what a technique is."""
