"""Readings entered at the engine."""
