"""Questions put to a seat: own numbers for each."""
