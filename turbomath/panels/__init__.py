"""The lessons: one folder each, with its panels, its pictures and its words; `registry` has them in order."""
