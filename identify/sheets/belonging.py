"""Do the parts of a hose belong together? What does not, why, and what to do about it."""

from collections.abc import Iterator

from identify.model.connection import EndConnection
from identify.model.sheet import SheetEnd
from identify.model.verdict import Hazard
from identify.reasoning.joint import Mating, Outcome
from identify.reasoning.mating import mate
from identify.sheets.finding import Finding, Grade, capital
from identify.sheets.fitness import hose_findings
from identify.sheets.known import SheetKnowledge
from identify.sheets.routing import length_findings
from identify.sheets.unsettled import unsettled_findings
from identify.sheets.working import Worked

CALCULATED = "calculated from table values, never tested on parts"
PRACTICE = "common practice"
_SERIES = (
    ({"cone24_L", "cone24_S"}, "series L and S",
     "Light and heavy series of the 24 degree cone share threads in some sizes and never tubes."),
    ({"flange61", "flange62"}, "code 61 and code 62",
     "Bolts of one can be forced into the other; the head of a code 61 flange is then not held."),
)  # fmt: skip


def findings(worked: Worked, known: SheetKnowledge) -> tuple[Finding, ...]:
    """Return all that does not belong together, the gravest first."""
    sheet = worked.sheet
    found = [
        *(
            Finding(f"refused-{number}", text, "", "Enter it again.", Grade.FORBIDS, "arithmetic")
            for number, text in enumerate(worked.refused, 1)
        ),
        *_joint("A", sheet.a, known),
        *_joint("B", sheet.b, known),
        *_both_ends(worked),
        *_ratings(worked),
        *hose_findings(worked),
        *length_findings(worked, known),
        *unsettled_findings(worked),
    ]
    return tuple(sorted(found, key=lambda each: tuple(Grade).index(each.grade)))


def _joint(side: str, part: SheetEnd, known: SheetKnowledge) -> Iterator[Finding]:
    """Yield what is wrong between an end and its port."""
    end, port = part.end, part.port
    for one, name in ((end, f"End {side}"), (port, f"The port of end {side}")):
        if one and one.refuse:
            yield Finding(
                f"guarded-{side}", f"{name} is {one.named}.", one.refuse,
                "Leave it alone: no hydraulic hose is made for it.", Grade.FORBIDS, "tables",
            )  # fmt: skip
    yield from _hands(side, part, known)
    if end is None or port is None:
        return
    for pair, names, why in _SERIES:
        if {end.family, port.family} == pair:
            yield Finding(
                f"series-{side}", f"End {side} and its port are of two series: {names}.", why,
                f"Measure the port again, and order end {side} in its series.",
                Grade.FORBIDS, PRACTICE,
            )  # fmt: skip
    found = mate(known.catalogue, end, port)
    if found.outcome is Outcome.SEALS and (found.meant or found.hazard is Hazard.LOW):
        return
    mates = ", ".join(each.id for each in known.catalogue.mates_of(port))
    remedy = f"The tables name for this port: {mates}." if mates else "The tables name no mate."
    yield Finding(
        f"joint-{side}", f"End {side} on its port: {found.words}.", found.reason,
        f"{remedy} Look at both again before anything is made.",
        _grade_of(found), CALCULATED,
    )  # fmt: skip


def _grade_of(found: Mating) -> Grade:
    if found.meant:
        return Grade.MIND
    return Grade.OPEN if found.outcome is Outcome.UNKNOWN else Grade.FORBIDS


def _hands(side: str, part: SheetEnd, known: SheetKnowledge) -> Iterator[Finding]:
    if part.hand and part.port_hand and part.hand != part.port_hand:
        yield Finding(
            f"hand-{side}", f"End {side} has a {part.hand}-hand thread, its port a "
            f"{part.port_hand}-hand one.", "Threads of two hands do not screw together.",
            "Look at both threads again; order the end by the port.", Grade.FORBIDS, PRACTICE,
        )  # fmt: skip
    if part.hand == "left" and part.end and not _may_be_left(part.end, known):
        yield Finding(
            f"left-{side}", f"End {side} is said to have a left-hand thread.",
            f"{part.end.family_name} has none by the tables; left-hand threads are common on gas.",
            "Identify the end again; do not make a hydraulic hose for a gas connection.",
            Grade.FORBIDS,
            "tables",
        )  # fmt: skip


def _may_be_left(end: EndConnection, known: SheetKnowledge) -> bool:
    thread = known.catalogue.thread_of(end)
    return end.left_hand > 0 or bool(thread and thread.left_hand)


def _screwed_in(part: SheetEnd) -> bool:
    """Tell whether an end is screwed in by turning the hose; the bolt of an eye turns alone."""
    end = part.end
    return part.held == "fixed" and bool(end and end.thread and end.gender in ("male", "female"))


def _both_ends(worked: Worked) -> Iterator[Finding]:
    sheet = worked.sheet
    a, b = sheet.a, sheet.b
    if all(_screwed_in(part) for part in (a, b)):
        yield Finding(
            "fixed", "Both ends are fixed threads; neither turns on the hose.",
            "The second cannot be screwed in without twisting the hose, and a twisted hose "
            "fails early.",
            "Make one end a swivel, or put an adaptor with a swivel at one port.",
            Grade.FORBIDS, PRACTICE,
        )  # fmt: skip
    if a.end and b.end and a.end.family != b.end.family:
        yield Finding(
            "mixed", f"Two standards on one hose: {a.end.title} and {b.end.title}.",
            "Machines of mixed make have such hoses; so has a wrong answer at one of the ends.",
            "Hold each end against its own port once more before the hose is made.", Grade.MIND,
            PRACTICE,
        )  # fmt: skip
        for pair, names, why in _SERIES:
            if {a.end.family, b.end.family} == pair:
                yield Finding(
                    "series", f"The two ends are of two series: {names}.", why,
                    "Measure both ports again; the lower rating holds for the whole hose.",
                    Grade.MIND,
                    PRACTICE,
                )  # fmt: skip


def _ratings(worked: Worked) -> Iterator[Finding]:
    """Yield parts that carry less than the hose, and a use that asks for more than they carry."""
    hose, *others = worked.parts
    carries = hose.supported_bar
    for part in others:
        bar = part.supported_bar
        if bar is not None and carries is not None and bar < carries:
            yield Finding(
                f"below-{part.name.replace(' ', '-')}",
                f"{capital(part.name)} carries {bar:g} bar, the hose {carries:g}.",
                "The whole carries no more than its lowest part.",
                f"Mark the hose with {bar:g} bar at most, or order the part for more.", Grade.MIND,
                "SAE J517 and ISO 18752, scopes",
            )  # fmt: skip
    use, most = worked.sheet.use, worked.rating.at_most_bar
    asked = max((bar for bar in (use.pressure, use.peaks) if bar is not None), default=None)
    if asked is not None and most is not None and asked > most:
        yield Finding(
            "pressure", f"The machine asks for {asked:g} bar, the lowest known part carries "
            f"{most:g}.", "A part is rated for its highest pressure, peaks included, unless its "
            "standard says otherwise.",
            "Do not make this hose. Choose parts that carry the peaks, or have the peaks lowered.",
            Grade.FORBIDS, PRACTICE,
        )  # fmt: skip
    if use.pressure is not None and use.peaks is not None and use.peaks < use.pressure:
        yield Finding(
            "peaks", f"The peaks of {use.peaks:g} bar are below the working pressure of "
            f"{use.pressure:g} bar.", "A peak is the highest pressure that occurs.",
            "Enter both again.", Grade.FORBIDS, PRACTICE,
        )  # fmt: skip
