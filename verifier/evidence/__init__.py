"""What is proved of a puzzle: who is heard, what is believed, what a disagreement means."""
