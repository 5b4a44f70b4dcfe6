"""Settings for every test."""

from hypothesis import settings

# No test asserts a time: on a busy machine an example may take as long as it likes. Failures print the
# blob that repeats them.
settings.register_profile("gridproof", deadline=None, print_blob=True)
settings.load_profile("gridproof")
