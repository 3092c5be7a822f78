"""Layers of contours to and from DXF; the only user of ezdxf.

Nothing here decides what is drawn or in which size.
"""
