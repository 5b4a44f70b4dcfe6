"""The fields of a puzzle file: maps, sizes, cages."""
