"""A publisher's house style: what it says, how it is read, and what it does not take."""
