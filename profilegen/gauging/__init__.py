"""How the finished wheel is proved: what is measured, over what, within which limits.

Owns pins, spans, bores and the list of features. Refuses text for people.
"""
