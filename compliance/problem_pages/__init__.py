"""A page for every problem: what it means, a wrong text and a right one. The pages are data, by what they are about."""
