"""Which ends of one gender a first measurement does not separate.

On a thread that is a caliper across the crests and a pitch gauge; on a plug, an eye, a washer or a
flange a rule on one of its sizes.
"""

from collections.abc import Iterator

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.reasoning.differences import CALIPER_MM, LEAF_MM, RULE_MM, apart, crest_of

HEADS_APART_MM = 3.5  # heads of neighbouring sizes across codes: too near to decide on
_SINGLE_SIZES = {
    Feature.FLANGE_HEAD_OD: HEADS_APART_MM,
    Feature.BOLT_SPACING_LONG: RULE_MM,
    Feature.BOLT_SPACING_SHORT: RULE_MM,
    Feature.PLUG_OD: RULE_MM,
    Feature.SOCKET_BORE: RULE_MM,
    Feature.EYE_BORE: RULE_MM,
    Feature.RING_ID: RULE_MM,
}


def rivals_of(catalogue: Catalogue, end: EndConnection) -> Iterator[tuple[EndConnection, str]]:
    """Yield what a first measurement does not separate from an end, and which measurement that is.

    In table order.
    """
    for rival in catalogue.ends:
        if rival.gender != end.gender or rival.id == end.id:
            continue
        if same := alike(catalogue, end, rival):
            yield rival, same


def alike(catalogue: Catalogue, one: EndConnection, other: EndConnection) -> str:
    """Return the measurement that does not separate two ends of one gender, empty if none."""
    thread, rival = catalogue.thread_of(one), catalogue.thread_of(other)
    if thread and rival and one.gender in ("male", "female"):
        if thread is rival:
            return "same thread"
        if abs(thread.pitch_mm - rival.pitch_mm) > LEAF_MM:
            return ""
        crest, other_crest = crest_of(one, thread), crest_of(other, rival)
        if crest and other_crest and apart(crest, other_crest) <= CALIPER_MM:
            return "caliper on the crests and a pitch gauge"
        return ""
    for feature, near in _SINGLE_SIZES.items():
        here, there = one.sizes.get(feature), other.sizes.get(feature)
        if here is not None and there is not None and abs(here - there) <= near:
            return f"{feature.replace('_', ' ')} by rule"
    return ""
