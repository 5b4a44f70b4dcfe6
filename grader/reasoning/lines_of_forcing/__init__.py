"""What follows from one assumption: its line, many of them at once, and what each conclusion rests on."""
