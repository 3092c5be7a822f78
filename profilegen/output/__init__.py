"""Back ends: marks, rows and dicts become bytes.

Owns the formats. Refuses decisions: what is drawn, where, and in which words is settled before.
The heavy libraries are imported by the module of their format, when that output is written.
"""
