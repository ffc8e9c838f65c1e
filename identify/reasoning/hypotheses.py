"""Every row of the catalogue, every way to make it, and "none of these", laid out as arrays."""

from identify.frozen import NamedTuple, dataclass, field, replace
from identify.light import Callable, Iterable, Iterator, Sequence, itemgetter
from identify.model.catalogue import Catalogue, column
from identify.model.connection import EndConnection, Shape
from identify.model.feature import GENDERS, SEAT_SHAPES, Feature
from identify.model.observation import ObservationModel, PriorTable
from identify.model.reading import How
from identify.model.rule import Tool
from identify.reasoning.answers import Answers
from identify.reasoning.explain import Alikes
from identify.reasoning.subject import Subject, trait
from identify.reasoning.traits import Trait

_ALWAYS = (str(Shape.CONVEX), str(Shape.CONCAVE), str(Shape.NONE))
NONE = -1  # row number of a hypothesis that stands for "none of these"


class TraitSpread:
    """The distinct traits of one feature, and for each hypothesis the number of its trait.

    Filled as it is asked for: a one-shot command looks at a handful of hypotheses for most
    features, and working out a trait for all of them would take most of its time.
    """

    def __init__(self, space: "Hypotheses", feature: Feature) -> None:
        self.space, self.feature = space, feature
        self.numbers: dict[Trait, int] = {}
        self._found: list[Trait] = []
        self.traits: Sequence[Trait] = self._found
        self._of: Sequence[int] = (filling := [-1] * len(space.subjects))
        self._filling = filling
        self._whole = False

    @classmethod
    def of_all(cls, feature: Feature, of: Sequence[int], traits: Sequence[Trait]) -> "TraitSpread":
        """Return the traits of a feature that were worked out before, of every hypothesis."""
        found = cls.__new__(cls)
        found.feature, found.traits = feature, traits
        found._of, found._whole = of, True
        return found

    def at(self, hypothesis: int) -> int:
        """Return the number of the trait that a hypothesis shows."""
        number = self._of[hypothesis]
        if number < 0:
            found = trait(self.feature, self.space.subjects[hypothesis], self.space.model)
            number = self.numbers.setdefault(found, len(self.numbers))
            if number == len(self.traits):
                self._found.append(found)
            self._filling[hypothesis] = number
        return number

    def mass(self, hypotheses: Sequence[int], weights: Sequence[float]) -> dict[int, float]:
        """Return the weight of each trait, by its number, over some hypotheses of some weights."""
        if self._whole and len(hypotheses) > len(self.traits) + 1:
            return self._mass_of_many(hypotheses, weights)
        of = self._of.__getitem__ if self._whole else self.at
        numbers = list(map(of, hypotheses))
        out = dict.fromkeys(numbers, 0.0)
        for number, weight in zip(numbers, weights, strict=True):
            out[number] += weight
        return out

    def _mass_of_many(
        self, hypotheses: Sequence[int], weights: Sequence[float]
    ) -> dict[int, float]:
        """Return the same of so many that a place for every trait takes half the time."""
        numbers = itemgetter(*hypotheses)(self._of)
        totals = [0.0] * len(self.traits)
        for number, weight in zip(numbers, weights, strict=True):
            totals[number] += weight
        return {number: total for number, total in enumerate(totals) if total}

    @property
    def of(self) -> Sequence[int]:
        """The number of the trait of every hypothesis."""
        if not self._whole:
            for hypothesis in range(len(self._of)):
                self.at(hypothesis)
            self._whole = True
        return self._of


class Kinds(NamedTuple):
    """What hypotheses, or rows, are counted together: `of[i]` is the place of its name.

    Of hypotheses the first name is empty: it stands for those that are of no kind.
    """

    names: tuple[str, ...]
    of: Sequence[int]
    by_row: bool


@dataclass(frozen=True)
class Hypotheses:
    """All hypotheses: `rows[i]` is an index into `ends` or NONE, `prior[i]` sums to 1.

    Hypothesis `i` below `len(ends)` is row `i` made the first way; then come the other ways, from
    `listed` on those that stand for "none of these". `ways[row]` are the hypotheses of a row.

    What is asked of all at once stands in a column: of the rows `kin` (gender, mount, share of
    left-hand threads), `families` and `sizes` ("family:size"), of the hypotheses `threads` (those
    to be measured) and `other_sizes` (the family that it would be in another size). `foreseen`
    tells the answers expected of a kind, where they were worked out before; `alikes` remembers
    `alike`.
    """

    catalogue: Catalogue
    ends: Sequence[EndConnection]
    subjects: Sequence[Subject]
    rows: tuple[int, ...]
    prior: tuple[float, ...]
    ways: tuple[tuple[int, ...], ...]
    listed: int
    model: ObservationModel
    kin: tuple[tuple[str, str, float], ...]
    threads: Kinds
    families: Kinds
    sizes: Kinds
    other_sizes: Kinds
    spreads: dict[Feature, TraitSpread] = field(default_factory=dict)
    foreseen: Callable[[Feature, How, frozenset[Tool], int], Answers | None] | None = None
    alikes: dict[Feature, Alikes] = field(default_factory=dict)

    def spread(self, feature: Feature) -> TraitSpread:
        """Return the traits of a feature over all hypotheses."""
        try:
            return self.spreads[feature]
        except KeyError:
            found = self.spreads[feature] = TraitSpread(self, feature)
            return found

    def alike(self, feature: Feature) -> Alikes:
        """Return which hypotheses a reading of a feature says the same of."""
        found = self.alikes.get(feature)
        if found is None:
            spread = self.spread(feature)
            found = Alikes(feature, spread.of, spread.traits, self.subjects)
            self.alikes[feature] = found
        return found


def build_hypotheses(
    catalogue: Catalogue, model: ObservationModel, priors: PriorTable, *, even: bool = False
) -> Hypotheses:
    """Lay out the catalogue for reasoning.

    Args:
        catalogue: The tables.
        model: Errors and habits.
        priors: Prevalence; with `even` every row weighs the same.
        even: Rank without prevalence.

    Returns:
        Hypotheses whose prior totals 1, "none of these" included.
    """
    weights = [1.0] * len(catalogue.ends) if even else row_weights(catalogue, priors)
    total = sum(weights)
    subjects: list[Subject] = []
    rows: list[int] = []
    prior: list[float] = []
    ways: list[tuple[int, ...]] = [()] * len(catalogue.ends)
    for way in range(max((len(end.seats) for end in catalogue.ends), default=0)):
        for row, (end, weight) in enumerate(zip(catalogue.ends, weights, strict=True)):
            if way < len(end.seats):
                seat = end.seats[way]
                thread = catalogue.thread_of(end, seat.thread)
                ways[row] += (len(subjects),)
                subjects.append(Subject(end.gender, thread, end, seat))
                rows.append(row)
                prior.append((1 - priors.none_of_these) * weight / total * seat.share)
    listed = len(subjects)
    known: dict[tuple[str, str], list[Subject]] = {}
    for subject in subjects:
        if subject.thread:
            known.setdefault((subject.gender, subject.thread.designation), []).append(subject)
    unlisted = priors.none_of_these * priors.unlisted_seat / max(1, len(known))
    for listed_seats in known.values():
        gender, thread = listed_seats[0].gender, listed_seats[0].thread
        subjects.append(Subject(gender, thread, None, None, _other_shapes(listed_seats)))
        rows.append(NONE)
        prior.append(unlisted)
    sizes = list(_unlisted_sizes(catalogue, weights))
    for subject, share in sizes:
        subjects.append(subject)
        rows.append(NONE)
        prior.append(priors.none_of_these * priors.unlisted_size * share)
    strange = priors.none_of_these * (1 - priors.unlisted_seat - priors.unlisted_size)
    for gender in GENDERS:
        mass = sum(
            w for end, w in zip(catalogue.ends, weights, strict=True) if end.gender == gender
        )
        subjects.append(Subject(gender, None, None, None, SEAT_SHAPES))
        rows.append(NONE)
        prior.append(strange * max(mass / total, 0.01))
    whole = sum(prior)
    return Hypotheses(
        catalogue,
        catalogue.ends,
        tuple(subjects),
        tuple(rows),
        tuple(p / whole for p in prior),
        tuple(ways),
        listed,
        model,
        tuple((end.gender, end.mount, end.left_hand) for end in catalogue.ends),
        _kinds(
            each.thread.designation if each.thread and each.gender in ("male", "female") else ""
            for each in subjects
        ),
        _kinds((end.family for end in catalogue.ends), by_row=True),
        _kinds((name.rpartition(":")[0] for name in catalogue.ids), by_row=True),
        _kinds(each.family for each in subjects),
    )


def _kinds(names: Iterable[str], *, by_row: bool = False) -> Kinds:
    places: dict[str, int] = {} if by_row else {"": 0}
    of = [places.setdefault(name, len(places)) for name in names]
    return Kinds(tuple(places), tuple(of), by_row)


def _unlisted_sizes(
    catalogue: Catalogue, weights: Iterable[float]
) -> Iterator[tuple[Subject, float]]:
    """Yield every family with thread and cone as it would be in another size, and its share.

    Without a cone nothing but its size tells a family, so that another size tells nothing. Shares
    go by how common the listed sizes are, and total 1.
    """
    totals: dict[Subject, float] = {}
    for end, weight in zip(catalogue.ends, weights, strict=True):
        if not end.thread or end.refuse or end.gender not in ("male", "female"):
            continue
        for seat in end.seats:
            if seat.half_angle_deg and seat.shape in (Shape.CONVEX, Shape.CONCAVE):
                plain = replace(seat, thread="", share=1.0)
                subject = Subject(end.gender, None, None, plain, (), end.family, end.mount)
                totals[subject] = totals.get(subject, 0.0) + weight * seat.share
    whole = sum(totals.values())
    yield from ((subject, weight / whole) for subject, weight in totals.items())


def _other_shapes(listed: Iterable[Subject]) -> tuple[str, ...]:
    """Return the shapes that a seat may have which is not listed with a thread.

    A cone may have another angle, and any thread may be that of a plain bolt or plug; all else
    would be a listed end after all.
    """
    own = {str(subject.seat.shape) for subject in listed if subject.seat}
    return tuple(each for each in SEAT_SHAPES if each in _ALWAYS or each not in own)


def row_weights(catalogue: Catalogue, priors: PriorTable) -> list[float]:
    """Return how common each row is, relative; a family's rows share the family's weight."""
    families, forms, bores = (
        column(catalogue.ends, each) for each in ("family", "form_key", "hose_dn")
    )
    other_bore = priors.bores.get("other", 1.0)
    raw = [
        priors.forms.get(f"{family}:{form}", 1.0)
        * (priors.bores.get(f"{bore:g}", other_bore) if bore else 1.0)
        for family, form, bore in zip(families, forms, bores, strict=True)
    ]
    totals: dict[str, float] = {}
    for family, weight in zip(families, raw, strict=True):
        totals[family] = totals.get(family, 0.0) + weight
    other = priors.families.get("other", 1.0)
    return [
        priors.families.get(family, other) * weight / totals[family]
        for family, weight in zip(families, raw, strict=True)
    ]
