"""Many samples: `rank --batch`, one JSON object a line in and out, by one process or by several.

What the extra `batch` brings, numpy and a faster writer of JSON, is used where it is installed.
"""

import argparse
import gc
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from functools import partial
from importlib.util import find_spec
from io import BufferedReader
from itertools import islice
from pathlib import Path
from typing import IO, Any

from identify.commands.desk import TOGETHER, Answer, Desk
from identify.commands.options import engine_of
from identify.commands.progress import Passed, counted
from identify.errors import ReadingError
from identify.reasoning.engine import Engine

ENDING = ".csv"  # of a file that is a table without being said to be
_FORM_OF_LINE = (
    'one JSON object a line, such as {"id": 1, "readings": {"gender": "male", "thread_od": '
    '"20.9 mm"}}'
)
SELDOM = 1_000_000  # values made before those nobody needs are looked for: more than a share holds


def run_batch(args: argparse.Namespace) -> int:
    """Answer every line of a file, or of standard input, in order.

    Returns:
        0, or 1 where lines failed and all others are answered.
    """
    if args.batch == "-":
        return _through(sys.stdin.buffer, "standard input", args)
    with _opened(args.batch) as lines:
        return _through(lines, args.batch, args)


def _through(lines: IO[bytes], name: str, args: argparse.Namespace) -> int:
    passed = Passed(lines)
    samples: Iterator[tuple[int, Any]]
    make: Callable[[], Any]
    if args.csv or name.lower().endswith(ENDING):
        from identify.commands.batch_table import opened_table, table_desk

        header, samples = opened_table(passed, name)
        make, form = partial(table_desk, args, header), "one a line below the header"
    else:
        samples, make, form = numbered(passed), partial(desk_of, args), _FORM_OF_LINE
    if args.jobs > 1:
        from identify.commands.workers import shared_out  # processes are for who asks for them

        answers = shared_out(samples, args.jobs, make)
    else:
        answers = _by_one(samples, make())
    failed, empty = 0, True
    for answer, fault in counted(answers, passed.share):
        sys.stdout.write(answer)
        failed, empty = failed + fault, False
    sys.stdout.flush()
    if empty:
        raise ReadingError(f"{name} holds no sample; write {form}.")
    if failed:
        told = "1 line failed" if failed == 1 else f"{failed} lines failed"
        print(f"whichend: {told}; the answer to each says why.", file=sys.stderr)
    return 1 if failed else 0


def _by_one(samples: Iterator[tuple[int, Any]], desk: Any) -> Iterator[Answer]:
    at_once = 1 if sys.stdout.isatty() else TOGETHER  # who looks on sees each answer as it comes
    with tidied_seldom():
        while share := list(islice(samples, at_once)):
            yield from desk.written(share)


@contextmanager
def tidied_seldom() -> Iterator[None]:
    """Look seldom for values that nobody needs any more: a batch leaves few, and holds a lot."""
    usual = gc.get_threshold()
    gc.freeze()
    gc.set_threshold(SELDOM, *usual[1:])
    try:
        yield
    finally:
        gc.set_threshold(*usual)
        gc.unfreeze()


def desk_of(args: argparse.Namespace) -> Desk:
    """Return the desk that the options ask for."""
    return Desk(batch_engine(args), args.limit, brief=args.brief)


def batch_engine(args: argparse.Namespace) -> Engine:
    """Return an engine for many samples."""
    return engine_of(args, arrays=find_spec("numpy") is not None)


def _opened(name: str) -> BufferedReader:
    try:
        return Path(name).open("rb")
    except OSError as error:
        raise ReadingError(
            f"{name}: cannot be read ({error.strerror}). Name a file of JSON Lines or a table "
            "(.csv), or - for standard input."
        ) from None


def numbered(lines: Iterable[bytes]) -> Iterator[tuple[int, bytes]]:
    """Yield the lines that hold anything, with their numbers."""
    return ((number, line) for number, line in enumerate(lines, 1) if line.strip())
