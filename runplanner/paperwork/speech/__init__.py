"""How papers speak: languages, figures, words that several papers share."""
