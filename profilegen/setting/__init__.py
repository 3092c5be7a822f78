"""What the machine is set by: zeros, moves, passes, lengths, speed, the blank as measured."""
