"""The desk: a project in the browser of one's own machine; the files stay the truth, nothing leaves the machine."""
