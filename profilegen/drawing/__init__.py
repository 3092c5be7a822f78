"""Drawings as marks on paper: millimetres, y up, the origin at the page's bottom left corner.

Owns marks, lettering, dimensions, hatching, tables, layout and sheet frames. Refuses to know a
wheel, a cutter or an output format: whoever calls it hands in curves and finished words.
"""
