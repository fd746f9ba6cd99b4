"""Closed formulas, one file per subject: SI in, SI out, numpy only."""
