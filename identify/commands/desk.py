"""Where the samples of a batch are answered: a line of JSON in, a line of JSON out.

Some samples are answered together, step by step; see `lockstep`. The faster writer of JSON of the
extra `batch` is used where it is installed.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from functools import lru_cache, partial
from typing import TYPE_CHECKING, Any

from identify.commands.sample_line import FORM, decoder
from identify.errors import ReadingError, WhichendError, quoted
from identify.frozen import NamedTuple
from identify.model.reading import Reading
from identify.pages.as_json import brief_json, verdict_json
from identify.pages.claim_json import claim_json
from identify.reading.claims import claim_of
from identify.reading.consistency import gathered, with_gender
from identify.reading.parse import reading_from
from identify.reasoning.claim import hold
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.lockstep import alone, together

if TYPE_CHECKING:
    from identify.reasoning.lockstep import Steps
    from identify.reasoning.posterior import Posterior

_NO_CLAIM = 'has a claim that is no text; write it as "JIC 8 by the driver".'
TOGETHER = 256  # samples answered together: enough to gain by it, and little to hold
REMEMBERED = 10_000  # typed readings: the words, leaves and round figures that come again
Answer = tuple[str, bool]  # a line, and whether it says why there is no answer
Encode = Callable[[object], str]


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
        self._encode, self._decode = encoder(), decoder()
        self._reading = partial(reading_from, threads=engine.catalogue.threads)
        self._typed = lru_cache(REMEMBERED)(self._reading)

    def answer(self, number: int, line: bytes) -> dict[str, Any]:
        """Return the answer to a line; to a bad one an object with `error`."""
        sample = self._read(number, line)
        work = self._answering(sample, *states_of(self.engine, [sample]))
        return alone(work, self.engine.chooser.gains)

    def written(self, samples: Iterable[tuple[int, bytes]]) -> list[Answer]:
        """Return the answers to some lines as lines."""
        read = [self._read(number, line) for number, line in samples]
        states = states_of(self.engine, read)
        return together(map(self._writing, read, states), self.engine.chooser.gains)

    def _read(self, number: int, line: bytes) -> Sample:
        name: dict[str, Any] = {}
        try:
            faults: list[str] = []
            sample = self._decode(line, faults)
            name = _id(sample)
            if not isinstance(sample.get("readings"), dict):
                faults.append(FORM)
            if faults:
                raise ReadingError(faults[0])
            readings = with_gender(gathered(self._typed_in(sample["readings"])))
            claim = sample.get("claim") or ""
            if not isinstance(claim, str):
                raise ReadingError(_NO_CLAIM)
        except WhichendError as error:
            return Sample(number, name, (), "", f"line {number}: {error}")
        return Sample(number, name, readings, claim, "")

    def _typed_in(self, values: dict[str, Any]) -> list[Reading]:
        found = []
        for feature, value in values.items():
            if value.__class__ is str:
                found.append(self._typed(feature, value))
                continue
            for each in _several(feature, value):
                read = self._typed if each.__class__ is str else self._reading
                found.append(read(feature, each))
        return found

    def _answering(self, sample: Sample, state: Posterior | None) -> Steps[dict[str, Any]]:
        return answered(self.engine, sample, state, self.limit, brief=self.brief)

    def _writing(self, sample: Sample, state: Posterior | None) -> Steps[Answer]:
        answer = yield from self._answering(sample, state)
        yield None
        return f"{self._encode(answer)}\n", "error" in answer


def states_of(engine: Engine, samples: Sequence[Sample]) -> list[Posterior | None]:
    """Return the posterior of each of some samples, None where it has a fault."""
    found = iter(engine.posteriors([each.readings for each in samples if not each.fault]))
    return [None if each.fault else next(found) for each in samples]


def answered(
    engine: Engine, sample: Sample, state: Posterior | None, limit: int, *, brief: bool
) -> Steps[dict[str, Any]]:
    """Return what follows from the readings of a sample and of its claim, else `error`.

    Args:
        engine: Reasons.
        sample: As it was read.
        state: The posterior after its readings, None where it has a fault.
        limit: Candidates to list.
        brief: Leave out the reasons.
    """
    fault = sample.fault
    if state is not None:
        try:
            told = yield from _answering(engine, sample, state, limit, brief=brief)
        except WhichendError as error:
            fault = f"line {sample.number}: {error}"
    return {**sample.name, **({"error": fault} if fault else told)}


def _answering(
    engine: Engine, sample: Sample, state: Posterior, limit: int, *, brief: bool
) -> Steps[dict[str, Any]]:
    readings, claim = sample.readings, sample.claim
    if brief:
        told = brief_json((yield from engine.briefly(state, limit)))
    else:
        verdict = yield from engine.concluding(readings, state, Situation(), limit)
        yield None
        told = verdict_json(verdict)
    if claim:
        held = hold(engine, claim_of(claim), engine.conclude(readings) if brief else verdict)
        told["claim"] = claim_json(held)
    return told


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


def _several(name: str, value: object) -> list[object]:
    """Return the readings of one name: a list holds several, all else is one."""
    if not isinstance(value, list):
        return [value]
    if not value:
        raise ReadingError(f"{quoted(name)} lists no reading; leave it out.")
    return value


def _id(sample: dict[str, Any]) -> dict[str, Any]:
    """Return the id to answer with, null where none was given.

    Raises:
        ReadingError: It is a number that JSON cannot say.
    """
    given = sample.get("id")
    if given is None or given.__class__ in (str, int):
        return {"id": given}
    try:
        json.dumps(given, allow_nan=False)
    except (ValueError, RecursionError):
        raise ReadingError(
            "has an id that JSON cannot write; use text or a whole number."
        ) from None
    return {"id": given}
