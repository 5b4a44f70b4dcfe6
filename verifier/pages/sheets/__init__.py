"""Print sheets."""
