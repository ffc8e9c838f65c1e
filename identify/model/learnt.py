"""What a shop has fitted, and how far that moved an answer."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING, dataclass

if TYPE_CHECKING:
    from identify.model.connection import EndConnection
    from identify.model.verdict import Verdict


@dataclass(frozen=True, slots=True)
class Fitted:
    """How many ends of a row were identified here, made and fitted; the last on which day."""

    count: int
    last: str


@dataclass(frozen=True, slots=True)
class Moved:
    """A candidate that was fitted here before, and its probability without and with that."""

    end: EndConnection
    fitted: Fitted
    before: float
    after: float


@dataclass(frozen=True, slots=True)
class Learnt:
    """What learning did to a verdict: the candidates it moved; and the verdict without it."""

    moved: tuple[Moved, ...]
    plain: Verdict
