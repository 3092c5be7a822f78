"""What gears with involute teeth share: the rack, the tooth that it generates, keys, sizes.

No form stands here. `rack` has the proportions, `tooth` flank and root in closed form, `keys` the
keys of every such gear, `cutters` the form cutters of a set, `gauged` pins, spans and chords that
serve, `sizes` all that is told of the teeth that are made, `care` what is objected to in any.
"""
