"""Elements that pages share: section titles, outcome marks, boxes to tick, lines to sign."""
