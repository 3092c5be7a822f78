"""Tooth forms: from the keys of a wheel to its whole outline and its sizes."""
