"""What is wanted: tooth forms, bores and holes, solved into a `Wheel`.

One module a tooth form; forms never import each other. Nothing here knows how a wheel is cut.
"""
