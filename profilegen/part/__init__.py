"""The part file: models for each kind, reading, rescue, schema.

Owns: everything between the bytes of a part file and a validated `Part`.
Refuses: geometry; whether a wheel can be made is answered further to the right.

Key paths count the tables of a list from 1, as a person does: `cutter[2].name`.
"""
