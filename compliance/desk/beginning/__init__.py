"""A project begun on a page: the questions of the interview as a form, its answers written as the interview does."""
