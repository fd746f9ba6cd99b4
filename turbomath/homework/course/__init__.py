"""A class: assignment, seats, what is handed out."""
