"""What is pasted or dropped in: held in memory until it is kept, with what is said of it."""
