"""Letters to setters: what became of what they sent, in the house's own frame."""
