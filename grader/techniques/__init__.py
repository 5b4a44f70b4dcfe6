"""The techniques, one family a module. The ladder puts them in order."""
