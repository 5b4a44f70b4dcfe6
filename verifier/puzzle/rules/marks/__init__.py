"""Marks: on the border of two neighbours, in a cell, or where four cells meet."""
