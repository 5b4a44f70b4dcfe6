"""The grader: works a puzzle through as a person does and says how hard it is."""
