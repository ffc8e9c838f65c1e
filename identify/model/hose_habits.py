"""How printed lines of hoses look, how they are damaged and misread, how hoses are measured."""

from identify.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Refused:
    """Words on a line that mark a hose which is none of these, and why it is refused."""

    words: tuple[str, ...]
    why: str


@dataclass(frozen=True, slots=True)
class LineHabits:
    """How printed lines look, how they are damaged and misread. Shares [0..1]; judgement.

    `right`, `confused`, `other` are the chances to read one character for itself, for one that
    looks like it (`alike` holds the groups) and for any other; `digit`, `letter`, `mark` the
    chances of one particular character where the line says something else. `glued_digit`,
    `glued_letter`, `glued`, `spaced` weigh a word found inside a longer number, inside a longer
    word, beside the other kind, or parted; `cut` one of which the line holds only a part; `later`
    and `before_type` a bare size that does not follow the type at once, or stands before it.
    `shown[field]` says how often a field is printed: a number under EN and ISO (`…_metric`), under
    SAE (`…_dash`), and where no standard stands (`…_loose`). `agrees` is the share of printed
    pressures that are those of the table (`of_class` for a type named by its pressure), `editions`
    of another edition, `bare` the chance that a number alone is a pressure; `classes` pressures are
    usual, and two roundings of one lie within `rounding` (relative). `types` weighs how common a
    type is, `other_type` those not listed; `no_hose` is the chance that the hose is in no table.

    Of measuring: where only its maximum is known an outside lies from `least_outside` times that
    on; `cover_worn` is the share of worn covers, by up to `cover_wear_mm`; a bore lies up to
    `bore_off_mm` beside its limits; `miscounted` and `kind_mistaken` are of the layers. With more
    types than `most_types` standing nothing is named. `refused` are words of other hoses.
    """

    right: float
    confused: float
    other: float
    digit: float
    letter: float
    mark: float
    alike: tuple[str, ...]
    glued_digit: float
    glued_letter: float
    glued: float
    spaced: float
    cut: float
    later: float
    before_type: float
    shown: dict[str, float]
    agrees: float
    of_class: float
    editions: float
    classes: float
    rounding: float
    bare: float
    types: dict[str, float]
    other_type: float
    no_hose: float
    least_outside: float
    cover_worn: float
    cover_wear_mm: float
    bore_off_mm: float
    miscounted: float
    kind_mistaken: float
    most_types: int
    refused: tuple[Refused, ...]
