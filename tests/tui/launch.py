"""The real program for tests on a terminal: `python launch.py [begin|go-on] [crash]`."""

import sys

from identify.knowledge.everything import load_knowledge
from identify.reasoning.engine import Engine
from identify.tui import app, run


def main(words: list[str]) -> int:
    knowledge = load_knowledge()
    if "crash" in words:

        def fail(*_: object) -> None:
            customer = "a name that must not be printed"
            raise RuntimeError(len(customer))

        app.screen_named = fail
    resume = {"begin": False, "go-on": True}.get(words[0] if words else "")
    engine = Engine(knowledge.catalogue, knowledge.book)
    return run.run(engine, knowledge.book, resume=resume)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
