"""How things are called, on all faces: tools, ends, seats, threads, ratings, hazards, chances."""

from identify.model.catalogue import Catalogue
from identify.model.connection import UNASKED, EndConnection, Rating, Seat
from identify.model.feature import FEATURES
from identify.model.reading import Angle, Basis, Choice, Marking, Reading, Trial
from identify.model.rule import Access, QuestionText, Tool
from identify.model.source import Provenance
from identify.model.thread import Band, Thread
from identify.model.verdict import (
    Hazard,
    Ranked,
    Suspect,
    open_forms,
    percent,
)
from identify.reading.manner import how_words, split_how, split_person, with_person

IN_SHORT = "m 20.9 6g10.9 in"
"""Readings on one line, for an example: taken with the caliper that nearly everybody has."""
TOOLS = {
    Tool.CALIPER: "caliper",
    Tool.RULE: "steel rule",
    Tool.METRIC_GAUGE: "metric pitch gauge",
    Tool.INCH_GAUGE: "inch pitch gauge",
    Tool.SEAT_GAUGE: "seat gauges",
    Tool.PROTRACTOR: "protractor",
    Tool.COMBS: "printed comb page",
    Tool.KNOWN_ENDS: "parts of known thread",
    Tool.NONE: "eye and hand",
}
TOOL_NOTES = {
    Tool.METRIC_GAUGE: "leaves marked in mm",
    Tool.INCH_GAUGE: "leaves marked in threads per inch",
    Tool.SEAT_GAUGE: "leaves or plugs for 24, 30, 37, 45 and 60 degree seats",
    Tool.KNOWN_ENDS: "to try the end on by hand",
    Tool.COMBS: 'printed with "whichend gauges"',
}
ACCESS = {
    Access.END_OFF: ("Undone, in my hand", "everything can be measured"),
    Access.END_ON_MACHINE: ("Still screwed together", "only the outside can be seen"),
    Access.HOSE_ONLY: ("Only the hose", "the end itself cannot be reached or is gone"),
}
CARE = {
    "careful": "at the bench, thread and seat clean, each reading taken twice",
    "ordinary": "at the bench, each reading taken once",
    "hurried": "at the machine or in gloves, one look and one reading",
    "novice": "first weeks, not yet sure what to look for",
    "": "not told; the readings count as those of anybody",
}
HAZARDS = {
    Hazard.HIGH: ("!!!", "can injure"),
    Hazard.MEDIUM: ("!!", "may hold a test and weep later"),
    Hazard.LOW: ("!", "leaks or does not fit at once"),
}
LEGEND = f"({', '.join(f'{mark} {words}' for mark, words in HAZARDS.values())})"
UNTOLD = "no measurement of the end tells them apart"


def sentence(words: str) -> str:
    """Return words as a sentence of their own."""
    return f"{words[:1].upper()}{words[1:].rstrip('.')}." if words else ""


def several(count: int, one: str, many: str = "") -> str:
    """Return a count with its noun: "1 row", "2 rows", "3 families"."""
    return f"{count} {one if count == 1 else many or one + 's'}"


# ---- measuring


def care_words(care: str) -> str:
    """Return who measures, and what that means."""
    return f"{care}: {CARE[care]}" if care else CARE[care]


def tool_words(tool: str) -> str:
    """Return with what a reading is taken."""
    return "by eye" if tool == Tool.NONE else f"with {TOOLS[Tool(tool)]}"


def minutes_words(minutes: float) -> str:
    """Return how long a measurement takes."""
    if minutes < 0.9:
        return f"about {round(minutes * 60, -1):.0f} seconds"
    return "about 1 minute" if minutes < 1.1 else f"about {minutes:g} minutes"


def said(reading: Reading, text: QuestionText | None) -> str:
    """Return an answer as it was given, and by whom if not by the one who asks.

    A choice stands by its label, a value with how it was taken.
    """
    value, entered = reading.value, split_person(reading.entered)[0]
    how = how_words(reading.how)
    if isinstance(value, Choice):
        label = text.label(value.word) if text else ""
        plain = value.word in label.lower().split()  # "55 degrees" need not say 55 again
        words = label if plain and label.lower() != value.word else value.word
        words = f"{label} ({value.word})" if label and not plain else words
    elif isinstance(value, Angle) and text and (label := text.label(split_how(entered)[0])):
        words = f"{label} ({split_how(entered)[0]}), {how}"
    elif isinstance(value, Marking | Trial) or how in entered or "gaps over" in entered:
        words = entered
    else:
        words = f"{entered}, {how}"
    return with_person(words, other_person=reading.other_person)


def suspect_words(suspect: Suspect) -> str:
    """Return why a reading is suspect, and what to do."""
    return f"{suspect.sentence} Take it again."


def retake_words(suspect: Suspect) -> str:
    """Return the same with the key first, for a pane that may cut off the end."""
    return f"r: retake it. {suspect.sentence}"


def likely_words(probability: float) -> str:
    """Return how likely something is, in words."""
    for least, words in ((0.95, "nearly sure"), (0.7, "likely"), (0.3, "possible")):
        if probability >= least:
            return words
    return "unlikely" if probability >= 0.05 else "very unlikely"


def bar(share: float, width: int) -> str:
    """Return a bar that fills `share` of `width` columns, to an eighth of a column."""
    eighths = max(1, round(share * width * 8)) if share > 0 else 0
    whole, rest = divmod(min(eighths, width * 8), 8)
    return ("█" * whole + ("", "▏", "▎", "▍", "▌", "▋", "▊", "▉")[rest]).ljust(width)


# ---- ends


def end_words(end: EndConnection) -> str:
    """Return an end in one line: family, size, gender, and that it must be left alone."""
    return f"{end.named}{' (do not handle)' if end.refuse else ''}"


def end_short(end: EndConnection) -> str:
    """Return an end for a narrow pane, where the last words may be cut: the size stands first."""
    gender = "" if end.gender in ("none", "flange") else f" {end.gender}"
    return f"{end.size}{gender}, {end.family_name}"


def twins_words(twins: tuple[EndConnection, ...], shown: int) -> str:
    """Return that some ends cannot be told from the one just named."""
    names = " or ".join(end_words(twin) for twin in twins[:shown])
    more = f" and {len(twins) - shown} more" if len(twins) > shown else ""
    return f"no measurement of the end tells it from {names}{more}"


def forms_words(ranked: Ranked) -> str:
    """Return which forms of one size are still open, empty where none is."""
    if not (forms := open_forms(ranked)):
        return ""
    found = [f"{percent(each.probability)} {each.end.form}" for each in forms]
    return f"the form is open ({', '.join(found)}); the same mates take each"


def rating_words(rating: Rating, *, noted: bool = True) -> str:
    """Return the working pressure the tables support, or that it is unknown."""
    note = f"; {rating.note}" if rating.note and noted else ""
    if rating.bar is None:
        return f"unknown{note}"
    basis = f" ({rating.basis})" if rating.basis else ""
    return f"{rating.bar:g} bar at most{basis}{note}"


def seat_words(seat: Seat, *, short: bool = False) -> str:
    """Return one way a seat is made: shape, angle, the piece that has it, its ring."""
    angle = seat.half_angle_deg
    if short:
        return f"{seat.shape} {angle:g} deg half" if angle else str(seat.shape)
    cone = f" {angle_words(Angle(angle, Basis.HALF))}" if angle else ""
    part = f", {seat.part}" if seat.part else ""
    ring = f", ring: {seat.o_ring}" if seat.o_ring != "none" else ""
    return f"{seat.shape}{cone}{part}{ring}"


def thread_words(thread: Thread) -> str:
    """Return a thread in one line: designation, pitch, form, taper, hand."""
    hand = ", left hand" if thread.left_hand else ""
    return (
        f"{thread.designation}: {thread.pitch_words}, flanks {thread.flank_angle_deg:g} deg, "
        f"{taper_words(thread)}{hand}"
    )


def taper_words(thread: Thread) -> str:
    """Return whether a thread is parallel, or its taper."""
    return f"taper 1:{1 / thread.taper:g}" if thread.taper else "parallel"


def crest_words(crest: Band) -> str:
    """Return what a caliper reads across the crests."""
    low, high = crest.low_mm, crest.high_mm
    return f"{low:.2f} to {high:.2f} mm ({low / 25.4:.4f} to {high / 25.4:.4f} in)"


def sizes_words(end: EndConnection) -> list[tuple[str, str, float]]:
    """Return every size the tables know of an end: in words, for a column, and in mm."""
    known = [(FEATURES[each].words, FEATURES[each].label, mm) for each, mm in end.sizes.items()]
    for field, words in UNASKED.items():
        mm: float | None = getattr(end, f"{field}_mm")
        if mm is not None:
            known.append((words, words, mm))
    return known


def bolts_words(end: EndConnection) -> str:
    """Return the bolts of a flange."""
    return " or ".join(filter(None, (end.bolt_metric, end.bolt_inch)))


def length_words(mm: float, decimals: int = 2) -> str:
    """Return a length [mm] in both units, "20.90 mm (0.8230 in)"."""
    return f"{mm:.{decimals}f} mm ({mm / 25.4:.{decimals + 2}f} in)"


def angle_words(angle: Angle) -> str:
    """Return an angle with its basis: "37 deg half (74 included)", "74 deg"."""
    deg, twice, half = (f"{round(each, 2):g}" for each in (angle.deg, 2 * angle.deg, angle.deg / 2))
    if angle.basis is Basis.HALF:
        return f"{deg} deg half ({twice} included)"
    return f"{deg} deg included ({half} half)" if angle.basis else f"{deg} deg"


def field_words(field: str) -> str:
    """Return the name of a field of the tables."""
    return field.replace("_", " ")


def cited(catalogue: Catalogue, provenance: Provenance) -> str:
    """Return who says so, where, and how far it was seen."""
    title = catalogue.sources[provenance.source].title
    where = f", {provenance.where}" if provenance.where else ""
    return f"{title}{where} ({provenance.basis})"


def checked_words(catalogue: Catalogue, provenance: Provenance) -> str:
    """Return the second sources, and what was seen there."""
    titles = "; ".join(catalogue.sources[key].title for key in provenance.checked_against)
    note = f": {provenance.checked_note}" if provenance.checked_note else ""
    return f"{titles}{note}" if titles else "against no second source"
