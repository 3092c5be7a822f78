"""Plane geometry of lines and true arcs: exact where a closed form exists, nothing refitted.

Millimetres and radians, x right, y up, counter-clockwise positive. This room knows curves and
moves, and no wheel, cutter, file or drawing.
"""
