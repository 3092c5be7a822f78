"""`[wheel]`: one module for each kind of wheel."""
