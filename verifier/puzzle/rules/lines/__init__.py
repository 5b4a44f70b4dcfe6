"""Lines that run from cell to cell."""
