"""The command line by `argparse`: every option, help, and slips said in plain words."""

import argparse
import re
from collections.abc import Callable, Mapping
from typing import Any, NoReturn

from identify.errors import WhichendError, near_misses

Declare = Callable[[argparse.ArgumentParser], None]
Declared = Callable[..., Declare | Mapping[str, str]]


class OptionError(WhichendError):
    """An option is unknown, lacks its value or has one that it cannot take."""

    def __init__(self, message: str, parser: argparse.ArgumentParser) -> None:
        options = ["--help", *re.findall(r"--[\w-]+", parser.format_usage())]
        super().__init__(f'{_plainly(message, options)} "{parser.prog} --help" tells more.')


def _plainly(message: str, options: list[str]) -> str:
    """Return what argparse found wrong in plain words."""
    if message.startswith("unrecognized arguments: "):
        word = message.removeprefix("unrecognized arguments: ")
        near = near_misses(word.split(" ")[0].split("=")[0], options)
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


def front(
    commands_: Mapping[str, str], prog: str = "whichend", about: str = ""
) -> argparse.ArgumentParser:
    """Return the parser that tells of the program as a whole, and of each command what it is.

    Args:
        commands_: By name what each does.
        prog: The words before a command: those of the program, or of a command that has verbs.
        about: What the program does; only there a version is told too.
    """
    start = "Without a command the interview starts. " if about else ""
    parser = _Parser(
        prog=prog, description=about, epilog=f'{start}"{prog} COMMAND --help" tells more.'
    )
    if about:
        parser.add_argument("--version", action="store_true", help="show the version and stop")
    commands = parser.add_subparsers(metavar="COMMAND", required=True)
    for name, what in commands_.items():
        commands.add_parser(name, help=what)
    return parser


def whole(
    parser: argparse.ArgumentParser, commands_: Mapping[str, str], declared: Declared, *before: str
) -> argparse.ArgumentParser:
    """Return a parser with every command and all it declares, as a completion needs it.

    Args:
        parser: One without commands.
        commands_: By name what each does.
        declared: From the words of a command to what declares its options, or to its verbs.
        before: The words of the command that has these as verbs.
    """
    parts = parser.add_subparsers(metavar="COMMAND")
    for name, what in commands_.items():
        one = parts.add_parser(name, help=what)
        found = declared(*before, name)
        if callable(found):
            found(one)
        else:
            whole(one, found, declared, *before, name)
    return parser


def parser_of(
    name: str, add_arguments: Callable[[argparse.ArgumentParser], None]
) -> argparse.ArgumentParser:
    """Return the parser of one command."""
    parser = _Parser(prog=f"whichend {name}")
    add_arguments(parser)
    return parser


class _Parser(argparse.ArgumentParser):
    """Says a slip in one sentence, as every other error is said."""

    def __init__(self, **options: Any) -> None:
        super().__init__(formatter_class=_Help, **options)

    def format_help(self) -> str:
        """Return the help, with what a command adds to it (`more_help`) only when it is read."""
        more = self.get_default("more_help")
        return super().format_help() + (f"\n{more()}\n" if more else "")

    def error(self, message: str) -> NoReturn:
        """Raise what argparse found, with the remedy."""
        raise OptionError(message, self)


class _Help(argparse.HelpFormatter):
    """Writes for a terminal of 80: to ask how wide it is would load half a file manager."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=78)
