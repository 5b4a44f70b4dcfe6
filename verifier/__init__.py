"""The verifier: reads puzzles, counts their solutions and writes the verdict."""
