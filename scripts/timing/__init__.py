"""What the benchmark measures with: the yardstick, other forms of the model, series of seconds."""
