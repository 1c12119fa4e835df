"""What is doubtful about test results: implausible values, shapes, days and rows that contradict each other."""
