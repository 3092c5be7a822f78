"""Equal shares of a turn out of real hardware, by exact fractions."""
