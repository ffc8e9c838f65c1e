"""Where the samples of a batch are answered: a line of JSON in, a line of JSON out.

Some samples are answered together, step by step; see `lockstep`. The faster writer of JSON of the
extra `batch` is used where it is installed.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from functools import lru_cache, partial
from typing import TYPE_CHECKING, Any

from identify.commands.sample_line import FORM, decoder
from identify.errors import ReadingError, WhichendError, quoted
from identify.frozen import NamedTuple
from identify.model.reading import Reading
from identify.model.verdict import Verdict
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
    from identify.reasoning.posterior import Posterior

_NO_CLAIM = 'has a claim that is no text; write it as "JIC 8 by the driver".'
TOGETHER = 512  # samples answered together: enough to gain by it, and little to hold
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
        self._lines, self._decode = Lines(), decoder()
        self._reading = partial(reading_from, threads=engine.catalogue.threads)
        self._typed = lru_cache(REMEMBERED)(self._reading)

    def answer(self, number: int, line: bytes) -> dict[str, Any]:
        """Return the answer to a line; to a bad one an object with `error`."""
        ((sample, state),) = weighed(self.engine, [self._read(number, line)])
        work = self._answering(sample, state)
        found, beside = alone(work, self.engine.chooser.gains)
        return {**sample.name, **found_json(found), **beside}

    def written(self, samples: Iterable[tuple[int, bytes]]) -> list[Answer]:
        """Return the answers to some lines as lines."""
        read = [self._read(number, line) for number, line in samples]
        works = (self._writing(*each) for each in weighed(self.engine, read))
        return together(works, self.engine.chooser.gains)

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

    def _answering(self, sample: Sample, state: Posterior | None) -> Steps[Told]:
        return answered(self.engine, sample, state, self.limit, brief=self.brief)

    def _writing(self, sample: Sample, state: Posterior | None) -> Steps[Answer]:
        found, beside = yield from self._answering(sample, state)
        return f"{self._lines.line(sample.name, found, beside)}\n", found is None


def weighed(engine: Engine, samples: Sequence[Sample]) -> list[tuple[Sample, Posterior | None]]:
    """Return some samples with their posteriors, None where it has a fault or cannot be weighed."""
    try:
        found = iter(engine.posteriors([each.readings for each in samples if not each.fault]))
    except WhichendError as error:
        if len(samples) == 1:
            (sample,) = samples
            return [(sample._replace(fault=f"line {sample.number}: {error}"), None)]
        return [pair for each in samples for pair in weighed(engine, [each])]
    return [(each, None if each.fault else next(found)) for each in samples]


def answered(
    engine: Engine, sample: Sample, state: Posterior | None, limit: int, *, brief: bool
) -> Steps[Told]:
    """Return what follows from the readings of a sample, and what stands behind it in an answer.

    That is what became of its claim, where it has one; of a sample with a fault it is `error`.

    Args:
        engine: Reasons.
        sample: As it was read.
        state: The posterior after its readings, None where it has a fault.
        limit: Candidates to list.
        brief: Leave out the reasons.
    """
    if state is None:
        return None, {"error": sample.fault}
    readings = sample.readings
    try:
        if brief:
            short = yield from engine.briefly(state, limit)
            return short, _held(engine, sample, engine.conclude(readings)) if sample.claim else {}
        verdict = yield from engine.concluding(readings, state, Situation(), limit)
        return verdict, _held(engine, sample, verdict) if sample.claim else {}
    except WhichendError as error:
        return None, {"error": f"line {sample.number}: {error}"}


def _held(engine: Engine, sample: Sample, verdict: Verdict) -> dict[str, Any]:
    return {"claim": claim_json(hold(engine, claim_of(sample.claim), verdict))}


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
