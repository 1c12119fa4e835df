"""The first project of a user: questions in plain words, answers kept as given, a folder that reads like a form."""
