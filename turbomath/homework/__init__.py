"""Homework that answers the mistake: a bank of questions, each seat's own numbers, and marking.

Individual numbers stop copying, not computing.
"""
