"""Changes to the files of a project that exists: a limit confirmed, a revision kept, a field assigned."""
