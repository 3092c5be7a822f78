"""The command line: the only room that writes files, talks, or ends the process.

Only click is imported up here; a command's own module is imported when it is called.
"""

from profilegen.cli.program import main

__all__ = ["main"]
