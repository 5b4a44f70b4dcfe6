"""The rules of the puzzle file, explained: what each says, how it is written, a file to start from."""
