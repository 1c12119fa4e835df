"""The way in for a phone on the same network, and the page of the desk where it is let in and shut out."""
