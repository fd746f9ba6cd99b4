"""A run folder read: bench, readings, units of each column."""
