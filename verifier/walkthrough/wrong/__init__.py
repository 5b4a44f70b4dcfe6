"""What is wrong in a part-filled grid, and why."""
