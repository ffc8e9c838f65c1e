"""Is what the other people say as often said as their ceiling believes, and of another shape?"""

import random
import statistics
from collections import Counter
from dataclasses import replace

from identify.model.feature import Feature
from identify.model.rule import Tool
from identify.simulation.lots import Lot
from identify.simulation.parts import make_part
from identify.simulation.people import Person
from tests.benchmark.moods import DAYS, MOODS, MoodyCeiling, observe_on
from tests.shipped import knowledge

SAMPLES = 6000
KNOWN = knowledge()
WHO = Person(KNOWN.book.people.observers["ordinary"], KNOWN.book)
LOT = Lot(KNOWN.catalogue, KNOWN.book, families=("bspp60",))
MAKE = next(make for make in LOT.makes if KNOWN.catalogue.ends[make.row].id == "bspp60:G1/2:male")


def said(feature, tool):
    rng = random.Random(f"{feature} said")
    days = rng.choices(DAYS, [each.share for each in DAYS], k=SAMPLES)
    parts = (make_part(rng, MAKE, KNOWN.book) for _ in days)
    return [
        reading
        for day, part in zip(days, parts, strict=True)
        if (reading := observe_on(rng, day, part, feature, WHO, tool))
    ]


def test_shares_total_one_and_nothing_is_larger_on_the_mean():
    for kinds in (DAYS, MOODS):
        assert abs(sum(each.share for each in kinds) - 1) < 1e-12
    assert abs(sum(each.share * each.eye for each in DAYS) - 1) < 1e-12
    assert abs(sum(each.share * each.bias_mm for each in DAYS)) < 1e-12
    assert 0.9 < sum(each.share * each.errors for each in MOODS) < 1.0


def test_what_is_said_is_said_as_often_as_the_ceiling_believes():
    ceiling = MoodyCeiling(LOT, WHO, len(KNOWN.catalogue.ends))
    for feature, tool in (
        (Feature.THREAD_OD, Tool.CALIPER), (Feature.SEAT_SHAPE, Tool.NONE),
        (Feature.PITCH, Tool.INCH_GAUGE),
    ):  # fmt: skip
        readings = said(feature, tool)
        counts = Counter(each.entered for each in readings)
        of_text = {each.entered: each for each in readings}
        worn = ceiling.share_worn(feature)
        for text, count in counts.most_common(4):
            new, old = ceiling.chance(of_text[text], MAKE.blueprint.figures[feature])
            believed = (1 - worn) * new + worn * old
            luck = (believed * (1 - believed) / SAMPLES) ** 0.5
            assert abs(count / SAMPLES - believed) < 4 * luck + 0.003, (text, count, believed)


def test_tails_are_heavier_than_those_of_a_normal_error():
    calm = replace(WHO, observer=replace(WHO.observer, inches=0.0, gross=0.0))
    part = make_part(random.Random(1), MAKE, KNOWN.book)
    truth, rng = part.truth[Feature.THREAD_OD], random.Random(2)
    days = rng.choices(DAYS, [each.share for each in DAYS], k=SAMPLES)
    found = (observe_on(rng, day, part, Feature.THREAD_OD, calm, Tool.CALIPER) for day in days)
    off = [each.value.mm - truth for each in found if each]
    spread = statistics.pstdev(off)
    kurtosis = statistics.fmean((each / spread) ** 4 for each in off)
    assert kurtosis > 3.5, kurtosis  # 3 of a normal error
