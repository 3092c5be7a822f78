"""From a job to what people and programs read: sheets, templates, rows, words.

Decides what is said and where it stands; nothing here knows a file format.
"""
