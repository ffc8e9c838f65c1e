"""Lookalikes found over the whole catalogue, and what it costs to take the one for the other.

Two ends of one gender are lookalikes if a first measurement does not separate them: on a thread a
caliper across the crests and a pitch gauge; on a plug, an eye, a washer or a flange a rule on one
of its sizes. Ends that are meant to mate are of different genders and so never lookalikes.
"""

from identify.frozen import dataclass
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.observation import ObservationModel
from identify.model.verdict import Hazard
from identify.reasoning.apart import nears_of, rivals_of
from identify.reasoning.differences import Difference, differences
from identify.reasoning.hazards import Hazards


@dataclass(frozen=True, slots=True)
class Lookalike:
    """Two ends that a first measurement does not separate.

    `alike` says which measurement that is. `tell` is the one observation that tells them apart,
    None where no measurement of the end does. `hazard` is that of taking `end` for `rival`: a
    `rival` fitted where `end` was.
    """

    end: EndConnection
    rival: EndConnection
    alike: str
    tell: Difference | None
    hazard: Hazard


def lookalikes_of(
    catalogue: Catalogue,
    end: EndConnection,
    model: ObservationModel,
    hazards: Hazards,
) -> tuple[Lookalike, ...]:
    """Return the lookalikes of one end, the most dangerous first.

    Args:
        catalogue: The tables.
        end: The end in question.
        model: What instruments resolve.
        hazards: Of taking one end for another.
    """
    found = []
    for rival, same in rivals_of(catalogue, end, nears_of(model)):
        tells = differences(catalogue, end, rival, model)
        tell = tells[0] if tells and tells[0].resolved else None
        found.append(Lookalike(end, rival, same, tell, hazards.of(end, rival)))
    return tuple(sorted(found, key=lambda one: (-one.hazard.rank, one.rival.id)))
