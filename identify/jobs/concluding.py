"""A verdict as it is kept: what it said, and on which tables and rules it rests."""

from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from identify.interview.session import SessionState, conclude, replay
from identify.jobs.facts import Concluded, Named
from identify.jobs.job import End
from identify.knowledge.fingerprint import fingerprints
from identify.model.catalogue import Catalogue
from identify.model.verdict import Verdict
from identify.reasoning.engine import Engine
from identify.version import version

KEPT_ENDS = 5  # of a ranking
PLACES = 6  # decimal places of a chance, as in JSON
MOST_CHANCE = 0.999999


def concluded(verdict: Verdict, catalogue: Catalogue, tables: Path | None, at: str) -> Concluded:
    """Return a verdict as it is kept: on the readings alone, whatever a shop has learnt.

    Args:
        verdict: As it was shown.
        catalogue: For the threads of its ends.
        tables: The user's own folder of tables that it rests on too, None where there is none.
        at: When, in UTC.
    """
    verdict = verdict.learnt.plain if verdict.learnt else verdict
    ends = []
    for ranked in verdict.ranking[:KEPT_ENDS]:
        thread = catalogue.thread_of(ranked.end)
        chance = min(round(ranked.probability, PLACES), MOST_CHANCE)
        designation = thread.designation if thread else ""
        ends.append(Named(ranked.end.id, ranked.end.named, designation, chance))
    of_tables, of_rules = fingerprints(tables)
    return Concluded(
        verdict.kind, verdict.sentence, tuple(ends), of_tables, of_rules, version(), at
    )


@dataclass(frozen=True, slots=True)
class Rechecked:
    """What the readings of an end say with today's tables, and what they said before.

    `differs` tells that kind or leading end are other ones, or that there was no verdict.
    """

    before: Concluded | None
    now: Concluded

    @property
    def differs(self) -> bool:
        """Tell whether the answer is another."""
        before = self.before
        return before is None or (before.kind, _leader(before)) != (
            self.now.kind,
            _leader(self.now),
        )

    def as_json(self, name: str) -> dict[str, Any]:
        """Return the same as plain values, ready for `json.dumps`."""
        return {
            "end": name,
            "differs": self.differs,
            "before": asdict(self.before) if self.before else None,
            "now": asdict(self.now),
        }


def rechecked(end: End, engine: Engine, tables: Path | None, at: str) -> Rechecked:
    """Reckon an end of a job again.

    Raises:
        ReadingError: An answer cannot be weighed with these tables.
    """
    return Rechecked(end.verdict, reckoned(replay(end.events), engine, tables, at))


def verdict_that_holds(end: End, engine: Engine, tables: Path | None, at: str) -> Concluded | None:
    """Return the verdict on an end as it was kept, reckoned now where answers came after it.

    None where there is none and nothing was measured.

    Raises:
        ReadingError: An answer that came after the verdict cannot be weighed with these tables.
    """
    if end.answered and (end.verdict is None or end.changed):
        return reckoned(replay(end.events), engine, tables, at)
    return end.verdict


def reckoned(state: SessionState, engine: Engine, tables: Path | None, at: str) -> Concluded:
    """Return the verdict on where an interview stands, as it is kept.

    Raises:
        ReadingError: An answer cannot be weighed with these tables.
    """
    return concluded(conclude(engine, state), engine.catalogue, tables, at)


def _leader(verdict: Concluded) -> str:
    return verdict.ends[0].id if verdict.ends else ""
