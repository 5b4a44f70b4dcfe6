"""What a mark, a line or a clue at the edge leaves open in its cells: one idea a module."""
