"""Every entry of a sheet: its path, its name on a page, what is asked, an example, how it is read.

One list for a file, for the dialogue of lines and for a job: a path such as "a.cut_off" is a part
and a field of that part (`model.sheet`).
"""

from collections.abc import Callable
from typing import Any

from identify.assembly import Convention, parse_bar, parse_density, parse_flow, parse_viscosity
from identify.frozen import dataclass, replace
from identify.model.sheet import EndShape
from identify.sheets.answers import (
    celsius,
    clean_class,
    clock,
    count,
    degrees,
    layer_words,
    length,
    lengths,
    measured_bore,
    measured_outside,
    named_end,
    named_hose,
    one_of,
    printed_line,
    quantity_by,
    shape,
    tolerance,
    words,
)
from identify.sheets.known import SheetKnowledge

MEDIA = (
    "mineral oil", "water-oil emulsion", "water glycol", "water", "ester", "phosphate ester",
    "fuel", "air or gas", "other",
)  # fmt: skip
MEASURED, CLAIMED = "measured", "claimed"  # how an end is known
LINES = ("pressure", "return", "suction")
TOLERANCES = ("DIN 20066", "SAE J517")
HANDS = ("right", "left")


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing that is entered.

    `path` is part and field. `title` names it on a page, `ask` is the question, `example` an answer
    that can be read. `read` returns the value or raises a `WhichendError`. `needed` tells that no
    sheet is whole without it. `choices` are all answers there are, none where any may be typed.
    """

    path: str
    title: str
    ask: str
    example: str
    read: Callable[[str, SheetKnowledge], Any]
    needed: bool = False
    choices: tuple[str, ...] = ()


def _chosen(path: str, title: str, ask: str, choices: tuple[str, ...], need: bool = False) -> Entry:
    return Entry(path, title, ask, choices[0], one_of(*choices), need, choices)


def _of_end(side: str) -> tuple[Entry, ...]:
    end, port = f"end {side.upper()}", f"port {side.upper()}"
    its_port = f"the port of {end}"

    def entry(
        field: str, title: str, ask: str, example: str, read: Any, need: bool = False
    ) -> Entry:
        return Entry(f"{side}.{field}", title, ask, example, read, need)

    def chosen(
        field: str, title: str, ask: str, choices: tuple[str, ...], need: bool = False
    ) -> Entry:
        return _chosen(f"{side}.{field}", title, ask, choices, need)

    return (
        entry("end", f"End {side.upper()}", f"What is {end}, by its id or by words that name it?",
              "flare37:-8:female", named_end, True),
        chosen("known", f"How {end} is known",
               f"How is {end} known: measured and identified, or only claimed?",
               (MEASURED, CLAIMED), True),
        replace(chosen("shape", f"Shape of {end}", f"How does {end} leave the hose?",
                       tuple(EndShape), True), read=shape),
        chosen("held", f"Hold of {end}", f"Does {end} turn on the hose (swivel), or is it fixed?",
               ("swivel", "fixed"), True),
        chosen("hand", f"Thread hand of {end}", f"Thread of {end}: right or left hand?", HANDS),
        entry("measured_to", f"Length of {end} to",
              f"To which point of {end} is the length measured?", "the sealing face", words),
        chosen("pieces", f"Pieces of {end}", f"Is {end} of one piece or of two?", ("one", "two")),
        entry("cut_off", f"Cut-off of {end}",
              f"Cut-off of {end}, from the measuring point to the hose stop, by its data?",
              "38.2 mm", length),
        entry("insertion", f"Insertion of {end}",
              f"How deep does the hose go into {end}, by its data?", "30 mm", length),
        entry("bore", f"Bore of {end}", f"Narrowest bore of {end}?", "9.5 mm", length),
        entry("data", f"Data of {end}", f"From which data are the figures of {end}?",
              "data sheet of the end, date", words),
        entry("rating", f"Rating of {end}", f"Working pressure of {end}, by its data?", "350 bar",
              quantity_by(parse_bar)),
        entry("rating_from", f"Who states the rating of {end}",
              f"Who states the working pressure of {end}?", "data sheet of the end, date", words),
        entry("port", f"Port of {end}", f"What is {its_port}, by its id or by words that name it?",
              "flare37:-8:male", named_end, True),
        chosen("port_known", f"How {port} is known",
               f"How is {its_port} known: measured and identified, or only claimed?",
               (MEASURED, CLAIMED), True),
        chosen("port_hand", f"Thread hand of {port}", f"Thread of {its_port}: right or left hand?",
               HANDS),
        entry("port_rating", f"Rating of {port}", f"Working pressure of {its_port}, by its data?",
              "350 bar", quantity_by(parse_bar)),
        entry("port_rating_from", f"Who states the rating of {port}",
              f"Who states the working pressure of {its_port}?", "plate of the machine", words),
    )  # fmt: skip


def _position(side: str) -> Entry:
    return Entry(
        f"{side}.position", f"Position of end {side.upper()}",
        f"Where does end {side.upper()} point, on a clock face, seen along the hose from A to B?",
        "6 o'clock", clock,
    )  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("job.reference", "Reference", "Reference of the job?", "bench 3", words),
    Entry("job.machine", "Machine", "Which machine, and where on it?", "press, left ram", words),
    Entry("job.quantity", "Quantity", "How many?", "2", count, True),
    Entry("job.measured_by", "Measured by", "Who measured?", "initials", words, True),
    Entry("job.checked_by", "Checked by", "Who checked the figures?", "initials", words, True),
    *_of_end("a"),
    *_of_end("b"),
    *map(_position, "ab"),  # they matter only where both ends are bent
    Entry("hose.line", "Printed on the old hose", "What is printed on the old hose?",
          "EN 853/2SN/DN 12/3Q21", printed_line),
    Entry("hose.bore", "Bore of the old hose", "Bore of the old hose, 20 mm inside a cut end?",
          "12.7 mm", measured_bore),
    Entry("hose.outside", "Outside of the old hose", "Outside diameter of the old hose?",
          "21.5 mm", measured_outside),
    Entry("hose.layers", "Layers of the old hose", "Reinforcement of the old hose at a cut end?",
          "2 wire braid", layer_words),
    Entry("hose.stated_by", "No old hose: who states bore and pressure",
          "Is there no old hose? Then who states bore and pressure?", "manual of the machine",
          words),
    Entry("hose.new", "New hose", "Type and size of the new hose?", "2SN:12", named_hose, True),
    Entry("hose.rating", "Rating of the hose", "Working pressure of the new hose, by its data?",
          "275 bar", quantity_by(parse_bar)),
    Entry("hose.bend", "Least bend radius", "Least bend radius of the new hose, by its data?",
          "180 mm", length),
    Entry("hose.data", "Data of the hose", "From which data are the figures of the hose?",
          "data sheet of the hose, date", words),
    Entry("length.overall", "Overall length", "Overall length between the measuring points?",
          "1200 mm", length, True),
    Entry("length.how", "How measured", "How was the length measured?",
          "old hose off the machine, straight, by tape", words, True),
    replace(_chosen("length.tolerance", "Length tolerance", "Which tolerance of the length holds?",
                    TOLERANCES, True), read=tolerance),
    Entry("length.error", "Error of measuring", "How far may the measured length be off?", "2 mm",
          length),
    Entry("length.cut_error", "Error of cutting", "How far may the cut be off?", "1 mm", length),
    Entry("length.data_error", "Error of each end",
          "How far may each cut-off and each insertion be off?", "0.5 mm", length),
    Entry("angle.angle", "Angle of the ends", "Angle of the two bent ends, stated from end A?",
          "90 deg", degrees),
    _chosen("angle.convention", "Convention of the angle",
            "Stated by which convention: near, far or mirrored?", tuple(Convention)),
    _chosen("use.medium", "Medium", "What flows?", MEDIA, True),
    Entry("use.temperature", "Temperature", "Lowest and highest temperature of the medium?",
          "-10..80 C", celsius, True),
    Entry("use.pressure", "Working pressure", "Working pressure of the machine?", "200 bar",
          quantity_by(parse_bar), True),
    Entry("use.peaks", "Pressure peaks", "Highest pressure that occurs, peaks included?",
          "230 bar", quantity_by(parse_bar), True),
    _chosen("use.line", "Kind of line", "Which line is it?", LINES),
    Entry("use.routing", "Routing", "How does it lie, in words?",
          "one bend, clamped in the middle", words, True),
    Entry("use.route", "Length of the way",
          "Shortest length that the way needs between the measuring points?", "1180 mm", length),
    Entry("use.bend_radius", "Tightest bend", "Radius of its tightest bend, to the inside?",
          "200 mm", length),
    Entry("use.bend_angle", "Turn of that bend", "How far does that bend turn?", "90 deg",
          degrees),
    Entry("use.travel", "Travel", "How far does one end move?", "150 mm", length),
    Entry("use.flow", "Flow", "How much flows?", "60 l/min", quantity_by(parse_flow)),
    Entry("use.viscosity", "Viscosity", "Viscosity at the temperature of the oil?", "46 cSt",
          quantity_by(parse_viscosity)),
    Entry("use.cold_viscosity", "Viscosity at a cold start", "Viscosity at a cold start?",
          "500 cSt", quantity_by(parse_viscosity)),
    Entry("use.density", "Density", "Density of the medium?", "870 kg/m3",
          quantity_by(parse_density)),
    Entry("making.target", "Target diameter",
          "Diameter to squeeze to, by the data of hose and end?", "24.6 mm", length),
    Entry("making.plus", "Target, plus", "How much larger may it be, by the same data?", "0.2 mm",
          length),
    Entry("making.minus", "Target, minus", "How much smaller may it be, by the same data?",
          "0.2 mm", length),
    Entry("making.data", "Data of the target", "From which data is the target?",
          "data sheet of the end, date", words),
    Entry("making.dies", "Dies", "Which dies are at hand?", "20 mm; 22 mm; 24 mm", lengths),
    Entry("making.division", "Division of the dial", "What is one division of the dial?",
          "0.1 mm", length),
    Entry("making.squeezed_a", "Squeezed diameters of end A",
          "Diameters measured on the squeezed end A?", "24.6 mm; 24.7 mm; 24.6 mm", lengths),
    Entry("making.squeezed_b", "Squeezed diameters of end B",
          "Diameters measured on the squeezed end B?", "24.6 mm; 24.7 mm; 24.6 mm", lengths),
    Entry("making.clean", "Cleanliness wanted", "Class of cleanliness that the machine wants?",
          "18/16/13", clean_class),
    Entry("making.counted", "Cleanliness found", "Class that was counted after flushing?",
          "17/15/12", clean_class),
    Entry("job.note", "Note", "Anything else?", "steam cleaner nearby", words),
)  # fmt: skip
BY_PATH = {entry.path: entry for entry in ENTRIES}
