"""The inspection plan and the site cards."""
