"""What a run says: tables, sentences, pages."""
