"""Where the samples of a batch are answered: a line of JSON in, a line of JSON out.

Some samples are answered together, step by step; see `lockstep`. The faster writer of JSON of the
extra `batch` is used where it is installed.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from functools import lru_cache, partial
from typing import TYPE_CHECKING, Any

from identify.errors import ReadingError, WhichendError, quoted
from identify.frozen import NamedTuple
from identify.model.reading import Reading
from identify.pages.claim_json import claim_json
from identify.pages.json_lines import Found, Lines, found_json
from identify.reading.claims import claim_of
from identify.reading.consistency import gathered, with_gender
from identify.reading.parse import reading_from
from identify.reasoning.claim import hold
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.lockstep import alone, together

if TYPE_CHECKING:
    from identify.reasoning.lockstep import Steps

_NO_CLAIM = 'has a claim that is no text; write it as "JIC 8 by the driver".'
_FORM = 'is not {"id": …, "readings": {"gender": "male", …}}.'
LONGEST_LINE = 1_000_000  # characters of one batch line
TOGETHER = 32  # samples answered together: enough to gain by it, and little to hold
REMEMBERED = 10_000  # typed readings: the words, leaves and round figures that come again
Answer = tuple[str, bool]  # a line, and whether it says why there is no answer
Told = tuple[Found, dict[str, Any]]  # what was concluded, and the fields that stand behind it


class Sample(NamedTuple):
    """A line of a batch: its number, its id as it is written, and what was read; or its fault."""

    number: int
    name: dict[str, Any]
    readings: tuple[Reading, ...]
    claim: str
    fault: str


class Desk:
    """Where samples are answered: an engine, and how its answers are written.

    Args:
        engine: Reasons.
        limit: Candidates to list.
        brief: Write the verdict, its candidates and the suspect readings only.
    """

    def __init__(self, engine: Engine, limit: int, *, brief: bool = False) -> None:
        self.engine, self.limit, self.brief = engine, limit, brief
        self._lines = Lines()
        self._reading = partial(reading_from, threads=engine.catalogue.threads)
        self._typed = lru_cache(REMEMBERED)(self._reading)

    def answer(self, number: int, line: bytes) -> dict[str, Any]:
        """Return the answer to a line; to a bad one an object with `error`."""
        sample = self._read(number, line)
        found, beside = alone(self._answering(sample))
        return {**sample.name, **found_json(found), **beside}

    def written(self, samples: Iterable[tuple[int, bytes]]) -> list[Answer]:
        """Return the answers to some lines as lines."""
        read = [self._read(number, line) for number, line in samples]
        self.engine.weigh_ahead(each.readings for each in read)
        return together(self._writing(each) for each in read)

    def _read(self, number: int, line: bytes) -> Sample:
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
            claim = sample.get("claim") or ""
            if not isinstance(claim, str):
                raise ReadingError(_NO_CLAIM)
        except WhichendError as error:
            return Sample(number, name, (), "", f"line {number}: {error}")
        return Sample(number, name, readings, claim, "")

    def _answering(self, sample: Sample) -> Steps[Told]:
        fault = sample.fault
        if not fault:
            try:
                return (
                    yield from answering(
                        self.engine,
                        sample.readings,
                        self.limit,
                        brief=self.brief,
                        claim=sample.claim,
                    )
                )
            except WhichendError as error:
                fault = f"line {sample.number}: {error}"
        return None, {"error": fault}

    def _writing(self, sample: Sample) -> Steps[Answer]:
        found, beside = yield from self._answering(sample)
        return f"{self._lines.line(sample.name, found, beside)}\n", found is None


def answering(
    engine: Engine, readings: tuple[Reading, ...], limit: int, *, brief: bool, claim: str
) -> Steps[Told]:
    """Return what follows from the readings of a sample, and the fields that stand behind it.

    Args:
        engine: Reasons.
        readings: Of the sample.
        limit: Candidates to list.
        brief: Leave out the reasons.
        claim: What somebody says it is, held against the readings; empty where nobody does.
    """
    found: Found
    if brief:
        found = yield from engine.briefly(readings, limit)
    else:
        found = verdict = yield from engine.concluding(readings, Situation(), limit)
    if not claim:
        return found, {}
    held = hold(engine, claim_of(claim), engine.conclude(readings) if brief else verdict)
    return found, {"claim": claim_json(held)}


def _several(name: str, value: object) -> list[object]:
    """Return the readings of one name: a list holds several, all else is one."""
    if not isinstance(value, list):
        return [value]
    if not value:
        raise ReadingError(f"{quoted(name)} lists no reading; leave it out.")
    return value


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
