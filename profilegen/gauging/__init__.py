"""How the finished wheel is proved: what is measured, over what, within which limits.

Owns standards as data, pins, spans, bores and the list of features. Refuses text for people.
"""
