"""Many samples: `rank --batch`, one JSON object a line in and out, by one process or by several.

What the extra `batch` brings, numpy and a faster writer of JSON, is used where it is installed.
"""

import argparse
import json
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from functools import lru_cache, partial
from importlib.util import find_spec
from io import BufferedReader
from pathlib import Path
from typing import IO, Any

from identify.commands.options import engine_of
from identify.commands.progress import Passed, counted
from identify.errors import ReadingError, WhichendError, quoted
from identify.model.reading import Reading
from identify.pages.as_json import brief_json, verdict_json
from identify.pages.claim import claim_json
from identify.reading.claims import claim_of
from identify.reading.consistency import gathered, with_gender
from identify.reading.parse import reading_from
from identify.reasoning.claim import hold
from identify.reasoning.engine import Engine

ENDING = ".csv"  # of a file that is a table without being said to be
_FORM_OF_LINE = (
    'one JSON object a line, such as {"id": 1, "readings": {"gender": "male", "thread_od": '
    '"20.9 mm"}}'
)
_NO_CLAIM = 'has a claim that is no text; write it as "JIC 8 by the driver".'
_FORM = 'is not {"id": …, "readings": {"gender": "male", …}}.'
LONGEST_LINE = 1_000_000  # characters of one batch line
REMEMBERED = 10_000  # typed readings: the words, leaves and round figures that come again
Answer = tuple[str, bool]  # a line, and whether it says why there is no answer
Encode = Callable[[object], str]


class Desk:
    """Where samples are answered: an engine, and how its answers are written.

    Args:
        engine: Reasons.
        limit: Candidates to list.
        brief: Write the verdict, its candidates and the suspect readings only.
    """

    def __init__(self, engine: Engine, limit: int, *, brief: bool = False) -> None:
        self.engine, self.limit, self.brief = engine, limit, brief
        self._encode = encoder()
        self._reading = partial(reading_from, threads=engine.catalogue.threads)
        self._typed = lru_cache(REMEMBERED)(self._reading)

    def answer(self, number: int, line: bytes) -> dict[str, Any]:
        """Return the answer to a line; to a bad one an object with `error`."""
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
                    (self._typed if each.__class__ is str else self._reading)(feature, each)
                    for feature, value in sample["readings"].items()
                    for each in _several(feature, value)
                )
            )
            claim = sample.get("claim")
            if claim and not isinstance(claim, str):
                raise ReadingError(_NO_CLAIM)
            told = answer_json(
                self.engine, readings, self.limit, brief=self.brief, claim=claim or ""
            )
            return {**name, **told}
        except WhichendError as error:
            return {**name, "error": f"line {number}: {error}"}

    def written(self, number: int, line: bytes) -> Answer:
        """Return the answer to a line as a line."""
        answer = self.answer(number, line)
        return f"{self._encode(answer)}\n", "error" in answer


def answer_json(
    engine: Engine, readings: tuple[Reading, ...], limit: int, *, brief: bool, claim: str
) -> dict[str, Any]:
    """Return what follows from the readings of a sample.

    Args:
        engine: Reasons.
        readings: Of the sample.
        limit: Candidates to list.
        brief: Leave out the reasons.
        claim: What somebody says it is, held against the readings; empty where nobody does.
    """
    if brief:
        told = brief_json(engine.brief(readings, limit=limit))
    else:
        verdict = engine.conclude(readings, limit=limit)
        told = verdict_json(verdict)
    if claim:
        held = hold(engine, claim_of(claim), engine.conclude(readings) if brief else verdict)
        told["claim"] = claim_json(held)
    return told


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
        desk: Any = make()
        answers = (desk.written(number, sample) for number, sample in samples)
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


def desk_of(args: argparse.Namespace) -> Desk:
    """Return the desk that the options ask for."""
    return Desk(batch_engine(args), args.limit, brief=args.brief)


def batch_engine(args: argparse.Namespace) -> Engine:
    """Return an engine for many samples."""
    return engine_of(args, arrays=find_spec("numpy") is not None)


def encoder() -> Encode:
    """Return what writes JSON: the faster library where it is installed and can.

    Both write the same values; of numbers under 0.0001 the faster one may write other digits.
    """
    plain = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode
    try:
        from orjson import dumps
    except ImportError:
        return plain

    def encode(answer: object) -> str:
        with suppress(TypeError):  # a whole number of more than 64 bits, half a character
            text: str = dumps(answer).decode()
            return text
        return plain(answer)

    return encode


def _opened(name: str) -> BufferedReader:
    try:
        return Path(name).open("rb")
    except OSError as error:
        raise ReadingError(
            f"{name}: cannot be read ({error.strerror}). Name a file of JSON Lines or a table "
            "(.csv), or - for standard input."
        ) from None


def _several(name: str, value: object) -> list[object]:
    """Return the readings of one name: a list holds several, all else is one."""
    if not isinstance(value, list):
        return [value]
    if not value:
        raise ReadingError(f"{quoted(name)} lists no reading; leave it out.")
    return value


def numbered(lines: Iterable[bytes]) -> Iterator[tuple[int, bytes]]:
    """Yield the lines that hold anything, with their numbers."""
    return ((number, line) for number, line in enumerate(lines, 1) if line.strip())


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
    given = sample.get("id")
    try:
        json.dumps(given, allow_nan=False)
    except (ValueError, RecursionError):
        raise ReadingError(
            "has an id that JSON cannot write; use text or a whole number."
        ) from None
    return {"id": given}
