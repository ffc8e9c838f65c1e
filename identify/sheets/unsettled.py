"""What no check can clear yet: unmeasured, unread, unknown or from memory; each with its remedy."""

from collections.abc import Iterator

from identify.model.sheet import SheetEnd
from identify.model.source import Support
from identify.model.verdict import VerdictKind
from identify.sheets.entries import CLAIMED
from identify.sheets.finding import Finding, Grade, in_a_row
from identify.sheets.working import Worked


def unsettled_findings(worked: Worked) -> Iterator[Finding]:
    """Yield what must be measured, read or looked up before the hose is made."""
    for side, part in (("A", worked.sheet.a), ("B", worked.sheet.b)):
        yield from _claims(side, part)
    yield from _pressures(worked)
    yield from _old_hose(worked)
    band = worked.length.band
    if band and band.row.says.basis is Support.FROM_MEMORY:
        yield Finding(
            "tolerance-memory", f"The length tolerance by {band.row.standard} is from memory.",
            "Nobody read this line of the standard for our tables.",
            "Look it up: ____. Or agree on DIN 20066, which was read in print.", Grade.OPEN,
            "tables",
        )  # fmt: skip


def _claims(side: str, part: SheetEnd) -> Iterator[Finding]:
    for row, how, name, key in (
        (part.end, part.known, f"End {side}", f"claimed-{side}"),
        (part.port, part.port_known, f"The port of end {side}", f"claimed-port-{side}"),
    ):
        if row is not None and how == CLAIMED:
            yield Finding(
                key, f"{name} was only claimed, never measured: {row.named}.",
                "Names are mixed up, and many ends look alike; no check can be better than that.",
                'Measure it: "whichend" asks step by step. Then enter "measured".', Grade.OPEN,
                "common practice",
            )  # fmt: skip


def _pressures(worked: Worked) -> Iterator[Finding]:
    unknown = worked.rating.look_up
    if not unknown:
        return
    a, b = worked.sheet.a, worked.sheet.b
    unsaid = any(
        bar is not None and not source
        for bar, source in (
            (worked.sheet.hose.rating, worked.sheet.hose.data), (a.rating, a.rating_from),
            (a.port_rating, a.port_rating_from), (b.rating, b.rating_from),
            (b.port_rating, b.port_rating_from),
        )
    )  # fmt: skip
    most = worked.rating.at_most_bar
    yield Finding(
        "rating",
        f"Unknown or from memory: the working pressure of {in_a_row(unknown)}.",
        ("The known parts carry "
         f"{most:g} bar; the whole may carry less. " if most is not None else "")
        + ("A pressure without its source counts as none." if unsaid else
           "The whole has no rating, and no proof pressure, before every part has one."),
        "Look it up in the data of the part, and enter it with who states it.", Grade.OPEN,
        "SAE J517 and ISO 18752, scopes",
    )  # fmt: skip


def _old_hose(worked: Worked) -> Iterator[Finding]:
    old, verdict = worked.sheet.hose, worked.verdict
    if old.stated_by or worked.hose is None or (verdict and verdict.refused):
        return
    if verdict is None:
        yield Finding(
            "old-hose", "Nothing of the old hose was read or measured.",
            f"Whether {worked.hose.name} has its bore and carries its pressure was not checked.",
            "Read its printed line, or measure bore, outside and layers at a cut end. Where there "
            "is no old hose, enter who states bore and pressure.", Grade.OPEN, "common practice",
        )  # fmt: skip
    elif verdict.kind is not VerdictKind.IDENTIFIED:
        lower = verdict.lower
        types = f" It may be {', '.join(lower.types)}." if lower else ""
        holds = " Until then the lowest holds" if lower else ""
        if lower:
            holds += f": {lower.bar:g} bar." if lower.bar else ", and no source states its figure."
        yield Finding(
            "old-hose", f"What the old hose was is not sure.{types}",
            f"Whether {worked.hose.name} carries as much was not checked.{holds}",
            f"{lower.ask}." if lower else 'Read or measure more: "whichend hose" says what.',
            Grade.OPEN, "common practice",
        )  # fmt: skip
