"""Laws of threads that no table can break by itself, since limits are computed: broken by hand."""

from dataclasses import replace
from pathlib import Path

import pytest

from identify.knowledge.build import build_catalogue
from identify.knowledge.laws import end_laws, thread_laws
from identify.model.connection import Across, EndConnection, Hexagon, Rating, Seat, Shape
from identify.model.source import Confidence, Provenance, Support
from identify.model.thread import Band, Limits

BASE = Path(__file__).parent.parent / "bad_tables" / "base"
M14 = build_catalogue([BASE]).threads["M14x1.5"]
ROW = Provenance("invented", Support.FROM_MEMORY)


def test_sound_thread_breaks_no_law() -> None:
    assert list(thread_laws(M14)) == []


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"tpi": 17.0}, "17 tpi is not a pitch of 1.5 mm; give one only"),
        (
            {"minor_mm": 13.5},
            "minor, pitch and major diameter do not ascend; check pitch and major",
        ),
        (
            {"external": Limits(Band(13, 13.1), Band(12.9, 13.2))},
            "the male crest lies on the wrong side of the pitch diameter",
        ),
        (
            {"internal": Limits(Band(13.1, 13.3), Band(13.0, 13.2))},
            "the female crest lies on the wrong side of the pitch diameter",
        ),
        (
            {"external": Limits(Band(13.7, 14), Band(-0.1, 13.0))},
            "the male limits reach zero; check the pitch",
        ),
    ],
)
def test_broken_thread_is_named(change: dict[str, object], sentence: str) -> None:
    broken = replace(M14, **change)  # type: ignore[arg-type]
    assert list(thread_laws(broken)) == [f'thread "M14x1.5": {sentence}']


@pytest.mark.parametrize(
    ("part", "mm", "sound"),
    [
        (Across.NUT, 17, True),
        (Across.NUT, 14, False),  # no wall left round the thread
        (Across.NUT, 35, False),
        (Across.BODY, 14, True),  # a male body may be as narrow as its thread
        (Across.BODY, 11, False),
        (Across.BODY, 43, False),
    ],
)
def test_hexagon_is_weighed_against_its_thread(part: Across, mm: float, sound: bool) -> None:
    end = EndConnection(
        id="demo:8L:female",
        family="demo",
        family_name="demonstration end",
        standards=(),
        gender="female",
        form="nut",
        form_key="female",
        mount="swivel",
        size="8L",
        thread="M14x1.5",
        seats=(Seat(Shape.NONE),),
        sealing="cone",
        seal="metal cone",
        provenance=ROW,
        confidence=Confidence.LOW,
        rating=Rating(None, note="no figure found"),
        hexagons=(Hexagon(part, mm, ROW),),
    )
    unlikely = f"{part} hexagon of {mm} mm is unlikely on a thread of 14 mm; check figure and unit"
    assert list(end_laws(end, M14)) == ([] if sound else [unlikely])
