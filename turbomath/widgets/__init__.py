"""Live panels for lessons: Python works everything out, the script beside it draws and reports what the reader does."""
