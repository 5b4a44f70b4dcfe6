"""What was decided of every submission, in one file."""
