"""All that is said of steps and techniques."""
