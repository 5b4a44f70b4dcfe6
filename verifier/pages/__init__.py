"""What people look at: the grid as a picture, pages about a walk, a verdict and a box, the print sheet."""
