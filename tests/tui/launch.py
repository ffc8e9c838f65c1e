"""The real program for tests on a terminal: `python launch.py [--crash] [OPTION...]`."""

import sys

from identify.entry import main
from identify.tui import opening


def fail(*_: object) -> None:
    """Break as a bug would, with something in reach that must not be printed."""
    customer = "a name that must not be printed"
    raise RuntimeError(len(customer))


if __name__ == "__main__":
    words = sys.argv[1:]
    if "--crash" in words:
        words.remove("--crash")
        opening.screen_named = fail
    sys.exit(main(words))
