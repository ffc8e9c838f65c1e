"""What a screen asks of the engine besides the verdict; each a frozen value, computed once."""

from identify.interview.session import Observed, SessionState, apply, conclude, start
from identify.interview.snapshot import Snapshot
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.reading.parse import reading_from
from identify.reasoning.engine import Engine
from identify.tui.view.guide import STEPS
from identify.tui.view.why import WhyNot


def snapshot_of(engine: Engine, state: SessionState, **more: object) -> Snapshot:
    """Return the snapshot of a state: the one place where an interview is concluded."""
    return Snapshot(state, conclude(engine, state), **more)  # type: ignore[arg-type]


def why_not(engine: Engine, snapshot: Snapshot, end: EndConnection) -> WhyNot:
    """Return what the readings say of one end."""
    posterior = engine.posterior(snapshot.state.readings)
    row = engine.catalogue.ends.index(end)
    ranking = snapshot.verdict.ranking
    leader = ranking[0] if ranking and snapshot.verdict.readings else None
    return WhyNot(end, posterior.rows[row], engine.evidence(posterior, row), leader)


def example(engine: Engine) -> tuple[Snapshot, ...]:
    """Return the states of the guided example: before it, and after each step."""
    state = start()
    found = [snapshot_of(engine, state)]
    for step in STEPS:
        state = apply(state, Observed(reading_from(step.feature, step.typed)))
        found.append(snapshot_of(engine, state))
    return tuple(found)


def suspect_of(snapshot: Snapshot) -> Feature | None:
    """Return the feature whose reading is most suspect."""
    suspects = snapshot.verdict.suspects
    return suspects[0].reading.feature if suspects else None
