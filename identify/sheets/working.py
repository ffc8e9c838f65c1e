"""What follows from a sheet by arithmetic: which hose, length, angle, rating, flow, squeezing.

What cannot be worked out is None; what was entered and cannot be is a sentence in `refused`.
"""

from collections.abc import Callable
from typing import TypeVar

from identify.assembly import (
    Target,
    assembly_rating,
    die_setting,
    judge_diameters,
    proof_and_burst,
)
from identify.assembly.rating import ProofAndBurst, RatedPart, Rating
from identify.assembly.squeezing import Judged, Setting
from identify.errors import WhichendError
from identify.frozen import dataclass
from identify.model.hose import Hose, HoseMeasures
from identify.model.hose_verdict import HoseVerdict
from identify.model.sheet import HoseSheet, SheetMaking
from identify.model.verdict import VerdictKind
from identify.reading.hose_measures import parse_layers
from identify.reasoning.hose_verdict import identify_hose
from identify.sheets.flowing import WorkedFlow, worked_flow
from identify.sheets.known import SheetKnowledge
from identify.sheets.rated import rated_parts
from identify.sheets.sizing import Tried, WorkedAngle, WorkedLength, worked_angle, worked_length

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Worked:
    """All that follows from one sheet."""

    sheet: HoseSheet
    verdict: HoseVerdict | None
    hose: Hose | None
    length: WorkedLength
    angle: WorkedAngle | None
    parts: tuple[RatedPart, ...]
    rating: Rating
    proof: ProofAndBurst | None
    flow: WorkedFlow | None
    setting: Setting | None
    judged: tuple[Judged | None, Judged | None]
    refused: tuple[str, ...]


def work_out(sheet: HoseSheet, known: SheetKnowledge) -> Worked:
    """Return what follows from a sheet."""
    refused: list[str] = []

    def tried(what: Callable[[], T]) -> T | None:
        try:
            return what()
        except WhichendError as error:
            refused.append(str(error))
            return None

    verdict = tried(lambda: _verdict(sheet, known))
    hose = sheet.hose.new or _named(verdict)
    parts = rated_parts(sheet, hose, verdict, known)
    rating = assembly_rating(parts)
    length = worked_length(sheet, hose, known, tried)
    target = tried(lambda: _target(sheet))
    making = sheet.making
    return Worked(
        sheet, verdict, hose, length, worked_angle(sheet, known), parts, rating,
        proof_and_burst(rating.bar, known.rules) if rating.bar else None,
        tried(lambda: worked_flow(sheet, hose, length.cut_mm, known.rules)),
        tried(lambda: die_setting(target, making.dies, making.division or 1.0))
        if target and making.dies else None,
        (
            _judged(making.squeezed_a, target, making, tried),
            _judged(making.squeezed_b, target, making, tried),
        ),
        tuple(dict.fromkeys(refused)),
    )  # fmt: skip


def _judged(
    measured: tuple[float, ...], target: Target | None, making: SheetMaking, tried: Tried
) -> Judged | None:
    """Judge what was measured; None where a limit is not known."""
    if target is None or not measured or making.plus is None or making.minus is None:
        return None
    return tried(lambda: judge_diameters(measured, target))


def _verdict(sheet: HoseSheet, known: SheetKnowledge) -> HoseVerdict | None:
    old = sheet.hose
    count, kind = parse_layers(old.layers) if old.layers else (None, None)
    seen = HoseMeasures(old.bore, old.outside, count, kind)
    if old.line is None and not seen.any:
        return None
    return identify_hose(old.line, seen, known.hoses)


def _named(verdict: HoseVerdict | None) -> Hose | None:
    if verdict is None or verdict.refused or verdict.kind is not VerdictKind.IDENTIFIED:
        return None
    return verdict.readings[0].hose


def _target(sheet: HoseSheet) -> Target | None:
    making = sheet.making
    if making.target is None:
        return None
    return Target(making.target, making.plus or 0.0, making.minus or 0.0, making.data)
