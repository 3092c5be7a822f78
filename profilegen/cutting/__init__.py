"""How it is made: cutters, their poses at the blank, the set-up frame and the stops.

Sees `Wheel` and `Toothing`, never a named tooth form.
"""
