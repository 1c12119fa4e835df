"""Papers for the code counter: questions and the worksheet of limits."""
