"""Pictures as plain data: axes, series with a role, words, alt text and a table twin; drawn live or printed."""
