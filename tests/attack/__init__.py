"""The attack: parts, texts, drawings and kills made at random, and what must hold for each.

`python -m tests.attack --seconds 600 --seed 7` runs it as long as one likes. A case is
settled by its sort, its seed and its number, so that what it finds is run again by one command.
"""
