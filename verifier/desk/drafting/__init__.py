"""What is done to a draft: each edit a function from one puzzle to the next."""
