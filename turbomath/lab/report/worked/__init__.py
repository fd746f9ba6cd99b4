"""One reading's reduction, worked step by step as on paper."""
