"""Hypothesis strategies: readings as a person makes them, and readings that are nonsense."""

from hypothesis import strategies as st

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import (
    Angle,
    Basis,
    Choice,
    How,
    Length,
    Marking,
    Outcome,
    Pitch,
    Reading,
    Slope,
    Trial,
    Value,
)
from tests.ideal import ideal_readings
from tests.shipped import knowledge

LEAVES_TPI = (11.0, 11.5, 12.0, 14.0, 16.0, 18.0, 19.0, 20.0, 24.0, 27.0, 28.0)
LEAVES_MM = (1.0, 1.25, 1.5, 1.75, 2.0)
KNOWN = ("G 1/4 female", "M14x1.5 female", "9/16-18 UNF female", "M22x1.5 male", "G 1/2 male")
HOWS = (How.CALIPER, How.RULE, How.GAUGE, How.EYE)


def lengths(feature: Feature) -> st.SearchStrategy[Length]:
    """Return lengths over the whole span of a feature, some as a range."""
    info = FEATURES[feature]
    return st.builds(
        Length,
        st.floats(info.low, info.high).map(lambda mm: round(mm, 2)),
        st.sampled_from((0.0, 0.0, 0.1, 0.5)),
    )


def pitches() -> st.SearchStrategy[Pitch]:
    """Return leaves of both gauges, counted pitches and ranges."""
    leaves = [Pitch(25.4 / tpi, True) for tpi in LEAVES_TPI] + [Pitch(mm) for mm in LEAVES_MM]
    return st.one_of(
        st.sampled_from(leaves),
        st.builds(
            lambda mm, count: Pitch(round(mm * count, 1) / count, False, 0.0, count),
            st.floats(0.6, 3.0),
            st.sampled_from((5.0, 8.0, 10.0)),
        ),
        st.builds(Pitch, st.floats(0.6, 3.0), st.booleans(), st.floats(0.01, 0.2)),
    )


def angles() -> st.SearchStrategy[Angle]:
    """Return seat angles, with and without a word on how they were taken."""
    deg = st.integers(10, 90).map(float)
    return st.builds(Angle, deg, st.sampled_from((None, Basis.HALF, Basis.INCLUDED)))


def values(feature: Feature) -> st.SearchStrategy[Value]:
    """Return values that a feature can have, sense or nonsense."""
    info = FEATURES[feature]
    if info.kind is Kind.LENGTH:
        return lengths(feature)
    if info.kind is Kind.PITCH:
        return pitches()
    if info.kind is Kind.ANGLE:
        return angles()
    if info.kind is Kind.TEXT:
        return st.sampled_from(("12L", "M22", "-8", "G1/2", "AN")).map(Marking)
    if info.kind is Kind.TRIAL:
        return st.builds(Trial, st.sampled_from(KNOWN), st.sampled_from(tuple(Outcome)))
    words = st.sampled_from(info.choices).map(Choice)
    if info.kind is Kind.TAPER:
        slopes = st.builds(Slope, st.sampled_from((0.0, 0.1, 0.4, 0.5, 0.7)), st.just(8.0))
        return st.one_of(words, slopes)
    return words


def readings() -> st.SearchStrategy[tuple[Reading, ...]]:
    """Return one to six readings of different features, in any order, consistent or not."""

    def of(features: list[Feature]) -> st.SearchStrategy[tuple[Reading, ...]]:
        return st.tuples(
            *(
                st.builds(Reading, st.just(f), values(f), st.sampled_from(HOWS), st.just(""))
                for f in features
            )
        )

    return st.lists(st.sampled_from(tuple(Feature)), min_size=1, max_size=6, unique=True).flatmap(
        of
    )


@st.composite
def measured(draw: st.DrawFn) -> tuple[Reading, ...]:
    """Draw some of the readings of one shipped end, lengths within a caliper's error."""
    catalogue = knowledge().catalogue
    end = draw(st.sampled_from(catalogue.ends))
    seat = draw(st.sampled_from(end.seats))
    ideal = ideal_readings(end, seat, catalogue.thread_of(end, seat.thread))
    kept = draw(st.lists(st.sampled_from(ideal), min_size=1, unique=True))
    out = []
    for reading in kept:
        value = reading.value
        if isinstance(value, Length):
            value = Length(max(0.1, round(value.mm + draw(st.floats(-0.15, 0.15)), 2)))
        out.append(Reading(reading.feature, value, reading.how, reading.entered))
    return tuple(out)
