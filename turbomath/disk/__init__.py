"""Files on disk: whole writes, plain files, a journal."""
