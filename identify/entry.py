"""Command line: wiring and exit codes; every face is imported only when it is chosen."""

import argparse
import atexit
import gc
import os
import re
import sys
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path
from typing import Any, NoReturn

from identify.errors import WhichendError
from identify.transliterate import tolerate

OK, BUG, BAD_INPUT = 0, 1, 2

COMMANDS = {
    "ask": "the interview, which also starts when no command is given",
    "rank": "rank end connections for readings given as name=value",
    "show": "one end connection with its figures and sources",
    "compare": "two end connections side by side, and what happens when they meet",
    "confirm": "does a claimed identity stand against the readings?",
    "tables": "families, rows and sources of the tables; check a folder of tables",
    "gauges": "a printable page of pitch combs and seat angles",
}


_ABOUT = ("-h", "--help", "--version")


class CommandError(WhichendError):
    """There is no such command."""

    def __init__(self, word: str) -> None:
        import difflib

        near = difflib.get_close_matches(word, COMMANDS, n=1)
        hint = f' Did you mean "{near[0]}"?' if near else f" Commands: {', '.join(COMMANDS)}."
        if "=" in word:
            hint = f' To rank readings write "whichend rank {word}".'
        super().__init__(f'"{word[:60]}" is not a command.{hint}')


class OptionError(WhichendError):
    """An option is unknown, lacks its value or has one that it cannot take."""

    def __init__(self, message: str, parser: argparse.ArgumentParser) -> None:
        commands = [
            command
            for action in parser._actions
            if isinstance(action, argparse._SubParsersAction)
            for command in action.choices.values()
        ]
        asked = commands[0] if len(commands) == 1 else parser
        told = _plainly(message, list(asked._option_string_actions))
        super().__init__(f'{told} "{asked.prog} --help" tells more.')


def _plainly(message: str, options: list[str]) -> str:
    """Return what argparse found wrong in plain words."""
    if message.startswith("unrecognized arguments: "):
        import difflib

        word = message.removeprefix("unrecognized arguments: ")
        near = difflib.get_close_matches(word.split(" ")[0].split("=")[0], options, n=1)
        hint = f' Did you mean "{near[0]}"?' if near else ""
        return f'"{word[:60]}" is not understood here.{hint}'
    if found := re.fullmatch(r"argument (\S+): invalid (\w+) value: '(.*)'", message, re.S):
        option, kind, value = found.groups()
        wanted = {"int": "a whole number", "float": "a number"}.get(kind, "another value")
        return f'{option}: "{value[:60]}" is not {wanted}.'
    if found := re.fullmatch(
        r"argument (\S+): invalid choice: '(.*)' \(choose from (.*)\)", message, re.S
    ):
        option, value, choices = found.groups()
        return f'{option}: "{value[:60]}" is none of {choices.replace(chr(39), "")}.'
    if message.startswith("the following arguments are required: "):
        return f"Missing: {message.removeprefix('the following arguments are required: ')}."
    return f"{message[:1].upper()}{message[1:160]}."


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status: 0 done, 1 a bug, 2 bad input."""
    gc.set_threshold(100_000)  # a start makes no garbage, and looking for it costs a tenth
    atexit.register(gc.freeze)  # nor does the end need to look for any
    words = list(sys.argv[1:] if argv is None else argv)
    for stream in (sys.stdout, sys.stderr):
        tolerate(stream)
    try:
        return _run(words)
    except WhichendError as error:
        print(f"whichend: {error}", file=sys.stderr)
        return BAD_INPUT
    except BrokenPipeError:  # the reader of our output has gone, as `head` does
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return OK
    except KeyboardInterrupt:
        print("whichend: stopped.", file=sys.stderr)
        return 130


def _run(words: list[str]) -> int:
    _warn_of_second_owner()
    if not words or (words[0].startswith("-") and words[0] not in _ABOUT):
        words = ["ask", *words]
    name = words[0]
    if name in COMMANDS:
        parser = _parser([name])
    elif name in _ABOUT:
        parser = _parser([] if name == "--version" else list(COMMANDS))
    else:
        raise CommandError(name)
    args = parser.parse_args(words)
    return int(args.run(args))


def _parser(names: Sequence[str]) -> argparse.ArgumentParser:
    """Return a parser that knows these commands; only theirs are imported."""
    parser = _Parser(
        prog="whichend",
        description="Identify a hydraulic hose end from what caliper and gauges say.",
        epilog='Without a command the interview starts. "whichend COMMAND --help" tells more.',
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="show the version and stop")
    commands = parser.add_subparsers(metavar="COMMAND", required=True, prog="whichend")
    for name in names:
        module = import_module(f"identify.commands.{name}")
        module.add_arguments(commands)
        commands.choices[name].set_defaults(run=module.run)
    return parser


class _Parser(argparse.ArgumentParser):
    """Says a slip in one sentence, as every other error is said.

    Writes help for a terminal of 80: to ask how wide it is would load half a file manager.
    """

    def __init__(self, **options: Any) -> None:
        super().__init__(formatter_class=_Help, **options)
        self.split = False

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> tuple[Any, list[str]]:
        """Parse words among which options may stand anywhere: argparse alone takes one run."""
        if self.split or any(action.nargs == argparse.PARSER for action in self._actions):
            return super().parse_known_args(args, namespace)
        self.split = True  # what follows parses twice, by way of this method
        try:
            return self.parse_known_intermixed_args(args, namespace)
        finally:
            self.split = False

    def error(self, message: str) -> NoReturn:
        """Raise what argparse found, with the remedy."""
        raise OptionError(message, self)


class _Help(argparse.HelpFormatter):
    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=78)


class _Version(argparse.Action):
    """Looks the version up only when it is asked for: that import is slow."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        print(f"whichend {_version()}")
        parser.exit()


def _version() -> str:
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version("whichend")
    except PackageNotFoundError:  # a bare checkout
        return "from a checkout"


def _warn_of_second_owner() -> None:
    """Say so if another distribution's files share our import name; one of the two will break."""
    package = Path(__file__).parent
    if (package / "extensions.py").exists():
        print(
            "whichend: another package shares the folder of this one; install whichend apart, "
            'with "pipx install whichend" or "uv tool install whichend".',
            file=sys.stderr,
        )
