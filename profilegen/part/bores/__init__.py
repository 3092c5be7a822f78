"""`[bore]`: one module for each kind of bore."""
