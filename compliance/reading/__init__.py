"""Files of a project, rule sets and shipped reference data into the model. Nobody else opens project files."""
