"""`whichend rank`: readings in, ranking with reasons, warnings and the next question out."""

from __future__ import annotations

import sys
from collections.abc import Iterator

from identify.commands.options import add_knowledge_options, engine_of
from identify.commands.output import print_json
from identify.errors import OutputError, ReadingError, WhichendError
from identify.files import reason
from identify.frozen import TYPE_CHECKING
from identify.knowledge.loading import load_knowledge
from identify.pages.as_json import verdict_json
from identify.reading.consistency import gathered, with_gender
from identify.reading.numbers import quoted
from identify.reading.parse import parse_readings, reading_from
from identify.reasoning.engine import Engine

if TYPE_CHECKING:
    import argparse
    from io import BufferedReader
    from typing import IO, Any


_FORM = 'is not {"id": …, "readings": {"gender": "male", …}}.'
LONGEST_LINE = 1_000_000  # characters of one batch line


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        "Rank end connections for readings such as gender=male "
        'thread_od="20.9 mm" pitch="14 tpi" seat_shape=concave seat_angle="60 deg included".'
    )
    parser.add_argument("readings", nargs="*", metavar="NAME=VALUE")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    parser.add_argument(
        "--full", action="store_true", help="every lookalike, warning and reason with its facts"
    )
    parser.add_argument(
        "--batch",
        metavar="FILE",
        help="JSON Lines, one sample a line; a list holds several readings of one feature; - is "
        "standard input",
    )
    parser.add_argument("--limit", type=int, default=8, metavar="N", help="candidates to list")
    parser.set_defaults(more_help=_names_help)
    add_knowledge_options(parser)


def _names_help() -> str:
    """Return the names of readings, each with an example."""
    from identify.pages.question import names_text

    return names_text(load_knowledge().book)


def run(args: argparse.Namespace) -> int:
    """Rank one sample, or a batch of them."""
    if args.limit < 1:
        raise ReadingError(f"--limit {args.limit} lists nothing; give 1 or more.")
    if args.batch is not None:
        if args.readings:
            raise ReadingError("Give readings or --batch FILE, not both.")
        return _batch(args)
    if not args.readings:
        raise ReadingError(
            'No readings given. Try: whichend rank gender=male thread_od="20.9 mm" pitch="14 tpi".'
        )
    engine = engine_of(args)
    readings = with_gender(parse_readings(args.readings, engine.catalogue.threads))
    verdict = engine.conclude(readings, limit=args.limit)
    if args.json:
        print_json(verdict_json(verdict))
    else:
        from identify.pages.verdict import verdict_text

        print(verdict_text(engine, verdict, whole=args.full), end="")
    return 0


def _batch(args: argparse.Namespace) -> int:
    engine = engine_of(args)
    if args.batch == "-":
        return _stream(sys.stdin.buffer, "standard input", engine, args.limit)
    with _opened(args.batch) as lines:
        return _stream(lines, args.batch, engine, args.limit)


def _opened(name: str) -> BufferedReader:
    try:
        return open(name, "rb")  # noqa: PTH123 - pathlib takes a third of a bare start
    except OSError as error:
        raise ReadingError(
            f"{name}: cannot be read ({error.strerror}). Name a file of JSON Lines, or - for "
            "standard input."
        ) from None


def _stream(lines: IO[bytes], name: str, engine: Engine, limit: int) -> int:
    import json

    encode = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode
    empty = True
    for answer in answers(lines, engine, limit):
        sys.stdout.write(encode(answer) + "\n")
        empty = False
    sys.stdout.flush()
    if empty:
        raise ReadingError(
            f"{name} holds no sample; write one JSON object a line, such as "
            '{"id": 1, "readings": {"gender": "male", "thread_od": "20.9 mm"}}.'
        )
    return 0


def answers(lines: Iterator[bytes] | IO[bytes], engine: Engine, limit: int) -> Iterator[Any]:
    """Yield one answer a line, in order; a bad line yields an object with `error`."""
    threads = engine.catalogue.threads
    for number, line in enumerate(_read(lines), 1):
        if not line.strip():
            continue
        name: dict[str, Any] = {}
        try:
            faults: list[str] = []
            sample = _object(line, faults)
            name = _id(sample)
            if not isinstance(sample.get("readings"), dict):
                faults.append(_FORM)
            if faults:
                raise ReadingError(faults[0])
            readings = with_gender(
                gathered(
                    reading_from(name, each, threads=threads)
                    for name, value in sample["readings"].items()
                    for each in _several(name, value)
                )
            )
            answer = verdict_json(engine.conclude(readings, limit=limit))
        except WhichendError as error:
            answer = {"error": f"line {number}: {error}"}
        yield {**name, **answer}


def _several(name: str, value: object) -> list[object]:
    """Return the readings of one name: a list holds several, all else is one."""
    if not isinstance(value, list):
        return [value]
    if not value:
        raise ReadingError(f"{quoted(name)} lists no reading; leave it out.")
    return value


def _read(lines: Iterator[bytes] | IO[bytes]) -> Iterator[bytes]:
    try:
        yield from lines
    except OSError as error:
        raise OutputError(f"the batch cannot be read ({reason(error)}).") from None


def _object(line: bytes, faults: list[str]) -> dict[str, Any]:
    """Return the JSON object of a line; what JSON lets pass and we do not is added to `faults`."""
    if len(line) > LONGEST_LINE:
        raise ReadingError(f"is longer than {LONGEST_LINE} characters; one sample is a short line.")

    def once_each(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for key, value in pairs:
            if key in found:
                faults.append(f"gives {quoted(key)} twice; keep the one that is true.")
                value = None
            found[key] = value
        return found

    def no_number(word: str) -> None:
        faults.append(f"holds {word}, which is no number of JSON; write a number, or text.")

    import json  # as in every function of a batch; a page needs none

    try:
        text = line.decode("utf-8-sig")
        sample = json.loads(text, object_pairs_hook=once_each, parse_constant=no_number)
    except UnicodeDecodeError:
        raise ReadingError("is not UTF-8; save the file as UTF-8.") from None
    except (ValueError, RecursionError) as error:
        raise ReadingError(f"is not JSON ({error}).") from None
    if not isinstance(sample, dict):
        raise ReadingError(_FORM)
    return sample


def _id(sample: dict[str, Any]) -> dict[str, Any]:
    """Return the id to answer with, null where none was given.

    Raises:
        ReadingError: It is a number that JSON cannot say.
    """
    import json

    given = sample.get("id")
    try:
        json.dumps(given, allow_nan=False)
    except (ValueError, RecursionError):
        raise ReadingError(
            "has an id that JSON cannot write; use text or a whole number."
        ) from None
    return {"id": given}
