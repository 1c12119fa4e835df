"""Snow, wind, earthquake and the weight of roofs at the site."""
