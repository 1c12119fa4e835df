"""Small changes to the code, each of which some test should notice. `python -m tests.mutation --most 20`."""
