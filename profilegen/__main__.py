"""`python -m profilegen`: the same as the command `profilegen`."""

from profilegen.cli import main

if __name__ == "__main__":
    main()
