"""The verdict: what the witnesses found, held against a publisher's house style, and written down."""
