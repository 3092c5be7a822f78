"""The kinds of `[dividing]`: what turns the work through equal shares. A module a kind."""
