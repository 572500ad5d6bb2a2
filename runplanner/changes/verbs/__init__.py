"""What each word that opens a line does, by subject."""
