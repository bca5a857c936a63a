"""Pieces to facts: the sense of each word chosen, numbers bound to their nouns, clauses parsed."""
