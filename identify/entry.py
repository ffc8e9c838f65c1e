"""Command line: wiring and exit codes; every face is imported only when it is chosen."""

from __future__ import annotations

import atexit
import gc
import io
import os
import sys

from identify.commands import COMMANDS, module_of
from identify.commands.everyday import Everyday
from identify.commands.output import Edge
from identify.commands.settings import settle
from identify.errors import OutputError, WhichendError, near_misses
from identify.frozen import TYPE_CHECKING
from identify.light import Mapping, Sequence, suppress

if TYPE_CHECKING:
    from typing import Any

MADE_BETWEEN_LOOKS = 100_000  # a start makes no garbage, and looking for it costs a tenth
OK, BAD_INPUT, NO_OUTPUT, INTERRUPTED = 0, 2, 5, 130

_WHAT = "Identify a hydraulic hose end from what caliper and gauges say."
_ABOUT = ("-h", "--help", "--version")


class CommandError(WhichendError):
    """There is no such command."""

    def __init__(self, word: str, commands: Mapping[str, str] = COMMANDS, before: str = "") -> None:
        near = near_misses(word, commands)
        hint = f' Did you mean "{before}{near[0]}"?' if near else ""
        hint = hint or f" Commands: {', '.join(f'{before}{name}' for name in commands)}."
        if "=" in word and not before:
            hint = f' To rank readings write "whichend rank {word}".'
        super().__init__(f'"{word[:60]}" is not a command.{hint}')


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status.

    0 done, 2 bad input, 5 where standard output cannot be written or standard input not be read,
    130 after an interrupt; a command may have more.
    """
    gc.set_threshold(MADE_BETWEEN_LOOKS)
    atexit.register(gc.freeze)  # nor does the end need to look for any
    words = list(sys.argv[1:] if argv is None else argv)
    with _Streams():
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


class _Streams:
    """Leads all output over one edge, where a closed stream fails; a closed input is at its end."""

    def __enter__(self) -> None:
        self._before = sys.stdin, sys.stdout, sys.stderr
        closed = io.StringIO()
        closed.close()
        sys.stdin = sys.stdin or io.TextIOWrapper(io.BytesIO())
        sys.stdout = Edge(sys.stdout or closed, "standard output")
        sys.stderr = Edge(sys.stderr or closed, "standard error")

    def __exit__(self, *_: object) -> None:
        sys.stdin, sys.stdout, sys.stderr = self._before


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
        from identify.commands.parser import front
        from identify.version import version

        if words[0] == "--version":
            print(f"whichend {version()}")
            return OK
        front(COMMANDS, about=_WHAT).parse_args(words[:1])  # prints, and ends the program
    name, *rest = words if words and not words[0].startswith("-") else ["ask", *words]
    if name not in COMMANDS:
        raise CommandError(name)
    command = _module(module_of(name))
    if verbs := getattr(command, "VERBS", None):
        verb, *rest = rest or ["--help"]
        if verb in _ABOUT[:2]:
            from identify.commands.parser import front

            front(verbs, f"whichend {name}").parse_args([verb])
        if verb not in verbs:
            raise CommandError(verb, verbs, f"whichend {name} ")
        command = _module(module_of(name, verb))
        name = f"{name} {verb}"
    everyday = Everyday()
    command.add_arguments(everyday)
    args: Any = everyday.read(rest)
    if args is None:
        from identify.commands.parser import parser_of

        # Intermixed: options may stand anywhere among the words; argparse alone takes one run.
        args = parser_of(name, command.add_arguments).parse_intermixed_args(rest)
    if name != "doctor":  # which tells what is wrong with the configuration
        settle(args)
    return int(command.run(args))


def _module(name: str) -> Any:
    """Return a module by its name, as `importlib.import_module` would, which imports `warnings`."""
    __import__(name)
    return sys.modules[name]


def _warn_of_second_owner() -> None:
    """Say so if another distribution's files share our import name; one of the two will break."""
    beside = os.path.dirname(__file__)  # noqa: PTH120 - pathlib takes a third of a bare start
    if os.path.exists(f"{beside}/extensions.py"):  # noqa: PTH110
        print(
            "whichend: another package shares the folder of this one; install whichend "
            'in its own environment, with "pipx install whichend" or "uv tool install whichend".',
            file=sys.stderr,
        )
