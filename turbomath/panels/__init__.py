"""The lessons: one folder a lesson, with its panels, its pictures and its words."""
