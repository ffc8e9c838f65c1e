"""Command line: wiring and exit codes; every face is imported only when it is chosen."""

import argparse
import atexit
import gc
import io
import os
import re
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from importlib import import_module
from pathlib import Path
from typing import Any, NoReturn

from identify.commands.output import Edge
from identify.errors import OutputError, WhichendError, near_misses

OK, BAD_INPUT, NO_OUTPUT, INTERRUPTED = 0, 2, 5, 130

COMMANDS = {
    "ask": "the interview, which also starts when no command is given",
    "rank": "rank end connections for readings given as name=value",
    "find": "the ends that words of the trade name, such as JIC -8 male",
    "show": "show one end connection with all its figures",
    "compare": "two end connections side by side, and what happens when they meet",
    "confirm": "does a claimed identity stand against the readings?",
    "tables": "list families, sizes and sources; check tables",
    "gauges": "write a printable page of pitch combs and seat angles",
}
"""Each is a module of `commands`, imported only when it is asked for."""

_ABOUT = ("-h", "--help", "--version")


class CommandError(WhichendError):
    """There is no such command."""

    def __init__(self, word: str) -> None:
        near = near_misses(word, COMMANDS)
        hint = f' Did you mean "{near[0]}"?' if near else f" Commands: {', '.join(COMMANDS)}."
        if "=" in word:
            hint = f' To rank readings write "whichend rank {word}".'
        super().__init__(f'"{word[:60]}" is not a command.{hint}')


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


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status.

    0 done, 2 bad input, 5 where standard output cannot be written or standard input not be read,
    130 after an interrupt; a command may have more.
    """
    gc.set_threshold(100_000)  # a start makes no garbage, and looking for it costs a tenth
    atexit.register(gc.freeze)  # nor does the end need to look for any
    words = list(sys.argv[1:] if argv is None else argv)
    with _streams():
        try:
            status = _flushed(words)
        except OutputError as error:
            _give_up_output()
            status = _said(error, NO_OUTPUT)
        except WhichendError as error:
            status = _said(error, BAD_INPUT)
        except BrokenPipeError:  # the reader of our output has gone, as `head` does
            _give_up_output()
            status = OK
        except KeyboardInterrupt:
            status = _said("stopped.", INTERRUPTED)
    return status


def _flushed(words: list[str]) -> int:
    """Run, and write out what is still held back, while a failure can still be told."""
    try:
        status = _run(words)
    except SystemExit:  # as --help ends
        sys.stdout.flush()
        raise
    try:
        sys.stdout.flush()
    except OutputError:
        if not status:
            raise
        _give_up_output()  # what the status says already is the graver news
    return status


@contextmanager
def _streams() -> Iterator[None]:
    """Lead all output over one edge, where a closed stream fails; a closed input is at its end."""
    before = sys.stdin, sys.stdout, sys.stderr
    closed = io.StringIO()
    closed.close()
    sys.stdin = sys.stdin or io.TextIOWrapper(io.BytesIO())
    sys.stdout = Edge(sys.stdout or closed, "standard output")
    sys.stderr = Edge(sys.stderr or closed, "standard error")
    try:
        yield
    finally:
        sys.stdin, sys.stdout, sys.stderr = before


def _said(what: object, status: int) -> int:
    with suppress(OSError, OutputError):
        print(f"whichend: {what}", file=sys.stderr, flush=True)
    return status


def _give_up_output() -> None:
    """Let what is still held back go nowhere, else the interpreter tries it again at its end."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _run(words: list[str]) -> int:
    _warn_of_second_owner()
    if words and words[0] in _ABOUT:
        _front().parse_args(words[:1])  # prints, and ends the program
    name, *rest = words if words and not words[0].startswith("-") else ["ask", *words]
    if name not in COMMANDS:
        raise CommandError(name)
    command = import_module(f"identify.commands.{name}")
    parser = _Parser(prog=f"whichend {name}")
    command.add_arguments(parser)
    # Intermixed: options may stand anywhere among the words, where argparse alone takes one run.
    return int(command.run(parser.parse_intermixed_args(rest)))


def _front() -> argparse.ArgumentParser:
    """Return the parser that tells of the program as a whole."""
    parser = _Parser(
        prog="whichend",
        description="Identify a hydraulic hose end from what caliper and gauges say.",
        epilog='Without a command the interview starts. "whichend COMMAND --help" tells more.',
    )
    parser.add_argument(
        "--version",
        action="version",
        version=f"whichend {_version()}",
        help="show the version and stop",
    )
    commands = parser.add_subparsers(metavar="COMMAND", required=True)
    for name, what in COMMANDS.items():
        commands.add_parser(name, help=what)
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
            "whichend: another package shares the folder of this one; install whichend "
            'in its own environment, with "pipx install whichend" or "uv tool install whichend".',
            file=sys.stderr,
        )
