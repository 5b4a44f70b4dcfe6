"""From files and folders to judged puzzles, over several processes."""
