"""The hypotheses laid out once, when the tables are compiled, and read from there bit by bit.

What a start needs of a thousand rows is a handful: of most the prior, of the features that were
read the traits, of the questions that may come next the answers they expect. All of it is what
`build_hypotheses`, `subject.trait` and `likelihood.answers` say, written down; a test holds the two
against each other.
"""

from __future__ import annotations

from itertools import combinations

from identify.frozen import TYPE_CHECKING
from identify.light import Iterator, Mapping, Sequence
from identify.model.catalogue import Catalogue
from identify.model.connection import Seat, Shape
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import ObservationModel
from identify.model.reading import How
from identify.model.rule import Tool
from identify.model.rulebook import RuleBook
from identify.packing import pack, unpack
from identify.reasoning import traits as kinds
from identify.reasoning.answers import Answers, Anywhere
from identify.reasoning.hypotheses import Hypotheses, Kinds, TraitSpread, build_hypotheses
from identify.reasoning.question import Chooser
from identify.reasoning.subject import Subject
from identify.reasoning.traits import Missing, Trait
from identify.reasoning.weigh_pitch import GAUGES

if TYPE_CHECKING:
    from typing import Any

Layout = Mapping[str, Sequence[bytes]]
"""Parts by name, each plain tuples, texts and numbers as `packing` writes them; read singly."""
_TRAITS = (
    kinds.Interval, kinds.OilBore, kinds.Hexagons, kinds.HexagonOf, kinds.HoseBore,
    kinds.ThreadPitch, kinds.ThreadTaper, kinds.Cone, kinds.Word, kinds.OneOf, kinds.Share,
    kinds.Marks, kinds.ThreadOf,
)  # fmt: skip
_MISSING = tuple(Missing)


def lay_out(catalogue: Catalogue, book: RuleBook) -> dict[str, Sequence[bytes]]:
    """Return what is worked out of tables and rules before anything is measured."""
    usual, even = (
        build_hypotheses(catalogue, book.observation, book.priors, even=each)
        for each in (False, True)
    )
    parts: dict[str, Sequence[object]] = {
        "prior": (usual.prior,),
        "even": (even.prior,),
        "rows": (usual.rows, usual.ways, usual.listed),
        "columns": (
            usual.kin,
            *(
                each._replace(of=_small(each.of))
                for each in (usual.threads, usual.families, usual.sizes, usual.other_sizes)
            ),
        ),
        "subjects": _subjects(usual),
    }
    for feature in Feature:
        spread = usual.spread(feature)
        parts[f"traits {feature}"] = (_small(spread.of), tuple(map(_of_trait, spread.traits)))
    chooser = Chooser(usual, book.priors, book.questions, book.limits)
    for feature, text in chooser.questions.items():
        if FEATURES[feature].kind is not Kind.TRIAL:
            for how in sorted({text.taken_as[tool] for tool in text.tools}):
                for gauges in _bags(feature):
                    parts[_called(feature, how, gauges)] = [
                        chooser.predicted(feature, how, kind, gauges)
                        for kind in range(len(usual.spread(feature).traits))
                    ]
    return {name: tuple(map(pack, each)) for name, each in parts.items()}


def _small(numbers: Sequence[int]) -> Sequence[int]:
    """Return numbers as bytes where all fit in one each: such are read in no time."""
    return bytes(numbers) if max(numbers, default=0) < 256 else tuple(numbers)


def laid_out(
    layout: Layout,
    catalogue: Catalogue,
    model: ObservationModel,
    *,
    even: bool = False,
    foreseen: bool = True,
) -> Hypotheses:
    """Return what `build_hypotheses` would, read from a layout of the same tables and rules.

    Args:
        layout: As `lay_out` wrote it down.
        catalogue: The tables.
        model: Errors and habits.
        even: Rank without prevalence.
        foreseen: The model is that of the layout, so that its expected answers are too.
    """
    rows, ways, listed = map(unpack, layout["rows"])
    kin, *told = map(unpack, layout["columns"])
    threads, families, sizes, other_sizes = [Kinds(*each) for each in told]
    return Hypotheses(
        catalogue,
        catalogue.ends,
        _Subjects(catalogue, layout["subjects"]),
        rows,
        unpack(layout["even" if even else "prior"][0]),
        ways,
        listed,
        model,
        kin,
        threads,
        families,
        sizes,
        other_sizes,
        _Spreads(layout),
        _Foreseen(layout) if foreseen else None,
    )


def _bags(feature: Feature) -> Iterator[frozenset[Tool]]:
    """Yield the pitch gauges that may be in the bag; they matter for a pitch only."""
    if feature is not Feature.PITCH:
        yield GAUGES
        return
    for number in range(len(GAUGES) + 1):
        yield from map(frozenset, combinations(sorted(GAUGES), number))


def _called(feature: Feature, how: How, gauges: frozenset[Tool]) -> str:
    return " ".join(["answers", feature, how, *sorted(gauges)])


def _subjects(space: Hypotheses) -> tuple[tuple[Any, ...], ...]:
    """Return the subjects with threads by name, ends by row, and seats by row and place."""
    seats = {
        id(seat): (row, place)
        for row, end in enumerate(space.ends)
        for place, seat in enumerate(end.seats)
    }
    row_of = space.catalogue.row_of
    return tuple(
        (
            each.gender,
            each.thread.designation if each.thread else "",
            row_of[each.end.id] if each.end else -1,
            _of_seat(each.seat, seats) if each.seat else None,
            *each[4:],
        )
        for each in space.subjects
    )


def _of_seat(seat: Seat, seats: Mapping[int, tuple[int, int]]) -> tuple[Any, ...]:
    """Return row and place of a seat; of a family's in another size, which is no row's, all."""
    return seats.get(id(seat)) or tuple(getattr(seat, name) for name in Seat.__match_args__)


def _of_trait(trait: Trait) -> tuple[Any, ...]:
    if isinstance(trait, Missing):
        return -1, _MISSING.index(trait)
    return _TRAITS.index(type(trait)), *trait


def _trait(told: tuple[Any, ...]) -> Trait:
    kind, *fields = told
    return _MISSING[fields[0]] if kind < 0 else _TRAITS[kind](*fields)


class _Subjects(Sequence[Subject]):
    """The subjects, each made when it is first looked at."""

    def __init__(self, catalogue: Catalogue, told: Sequence[bytes]) -> None:
        self.catalogue, self._told = catalogue, told
        self._made: dict[int, Subject] = {}

    def __len__(self) -> int:
        return len(self._told)

    def __getitem__(self, at: Any) -> Any:
        if isinstance(at, slice):
            return tuple(self[each] for each in range(*at.indices(len(self))))
        if (found := self._made.get(at)) is None:
            gender, thread, row, seat, *rest = unpack(self._told[at])
            ends = self.catalogue.ends
            found = self._made[at] = Subject(
                gender,
                self.catalogue.threads[thread] if thread else None,
                ends[row] if row >= 0 else None,
                self._seat(seat) if seat else None,
                *rest,
            )
        return found

    def _seat(self, told: tuple[Any, ...]) -> Seat:
        if len(told) == 2:
            row, place = told
            return self.catalogue.ends[int(row)].seats[int(place)]
        return Seat(Shape(told[0]), *told[1:])


class _Spreads(dict[Feature, TraitSpread]):
    """The traits by feature, each read when it is first asked for."""

    def __init__(self, layout: Layout) -> None:
        super().__init__()
        self._layout = layout

    def __missing__(self, feature: Feature) -> TraitSpread:
        of, told = self._layout[f"traits {feature}"]
        found = self[feature] = TraitSpread.of_all(feature, unpack(of), _Traits(told))
        return found


class _Traits(Sequence[Trait]):
    """The traits of a feature, each made when it is first looked at."""

    def __init__(self, told: bytes) -> None:
        self._packed = told
        self._made: list[Trait | None] = []

    def __len__(self) -> int:
        if not self._made:
            self._told: tuple[tuple[Any, ...], ...] = unpack(self._packed)
            self._made = [None] * len(self._told)
        return len(self._made)

    def __getitem__(self, at: Any) -> Any:
        if isinstance(at, slice):
            return [self[each] for each in range(*at.indices(len(self)))]
        if not self._made:
            len(self)
        if (found := self._made[at]) is None:
            found = self._made[at] = _trait(self._told[at])
        return found


class _Foreseen:
    """The answers expected of every kind of a feature, each read when it is first asked for."""

    def __init__(self, layout: Layout) -> None:
        self._layout = layout

    def __call__(
        self, feature: Feature, how: How, gauges: frozenset[Tool], kind: int
    ) -> Answers | None:
        told = unpack(self._layout[_called(feature, how, gauges)][kind])
        if told is None:
            return None
        first, chances, anywhere, silent, sharpness = told
        return Answers(first, chances, Anywhere(*anywhere) if anywhere else None, silent, sharpness)
