"""The search towards a wish: where it goes, what it looks at, who looks."""
