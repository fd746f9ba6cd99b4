"""From readings to results, each with its ±."""
