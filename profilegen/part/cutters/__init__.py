"""`[[cutter]]`: one module for each kind of cutter."""
