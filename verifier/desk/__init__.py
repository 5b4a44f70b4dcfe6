"""The desk: a live page on which a setter draws a puzzle and sees at every stroke what it is."""
