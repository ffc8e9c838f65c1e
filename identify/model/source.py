"""Where a figure comes from and how far it can be trusted."""

from identify.frozen import StrEnum, dataclass


class Support(StrEnum):
    """What a figure rests on, strongest first. Never claim a stronger one than was seen."""

    STANDARD_TEXT = "standard-text"  # read in the standard's own published text
    PRINTED = "printed"  # read in a reprint of the standard's table
    COMPUTED = "computed"  # worked out from the standard's formula
    OPEN_DATASET = "open-dataset"  # seen in an open table or public data sheet
    COMMON_PRACTICE = "common-practice"  # trade fact, no standard found
    FROM_MEMORY = "from-memory"  # recalled, not verified


class Confidence(StrEnum):
    """The table keeper's own judgement of a row."""

    HIGH = "high"
    MEDIUM = "medium"
    LOW = "low"


@dataclass(frozen=True, slots=True)
class Source:
    """A publication or dataset that rows cite by `key`."""

    key: str
    title: str
    kind: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Provenance:
    """Who says so: the source key, the place in it, the support, and what it was checked against.

    `checked_against` holds source keys, `checked_note` what was seen there in words. `caveat` is
    one sentence for the person at the machine, empty where there is no doubt worth a sentence.
    `file` and `line` say where the row stands.
    """

    source: str
    basis: Support
    where: str = ""
    checked_against: tuple[str, ...] = ()
    checked_note: str = ""
    caveat: str = ""
    file: str = ""
    line: int = 0
