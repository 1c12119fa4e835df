"""Heat through walls and in them: what energy codes ask of a mass wall."""
