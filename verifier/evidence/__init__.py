"""What is proved of a puzzle: who is asked, what is believed, what a disagreement means."""
