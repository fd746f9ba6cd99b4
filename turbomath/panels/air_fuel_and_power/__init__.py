"""The panels of one lesson."""
