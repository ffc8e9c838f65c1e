"""`whichend confirm`: does what somebody says an end is stand against readings?"""

import argparse

from identify.commands.options import add_knowledge_options, engine_of
from identify.commands.output import print_json
from identify.commands.rank import readings_in
from identify.errors import ReadingError
from identify.model.claim import Standing
from identify.model.feature import Feature
from identify.model.reading import Choice, How, Reading
from identify.pages.claim import claim_blocks
from identify.pages.claim_json import claim_json
from identify.pages.text import text_of
from identify.reading.claims import claim_of
from identify.reading.consistency import implied_gender, with_gender
from identify.reading.names import understand
from identify.reasoning.claim import hold

SHORT = "readings="  # before a line in short, as the column of a table is called
STATUS = {Standing.STANDS: 0, Standing.DOUBTFUL: 3, Standing.REFUTED: 4}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        "Hold what somebody says an end is against readings: confirm JIC 8 male "
        'thread_od="18.9 mm" pitch="16 tpi" seat_angle="37 deg half". Words that leave '
        "something open are weighed as the set of ends that they name. In short: "
        'confirm JIC 8 male readings="18.9 16t 37h".'
    )
    parser.epilog = "Exit status: 0 it stands, 3 doubtful, 4 refuted; 2 what was typed is at fault."
    parser.add_argument(
        "words",
        nargs="+",
        metavar="WORDS NAME=VALUE",
        help="the claim in the words of the trade, such as half inch BSP, or an id; who said it "
        "may follow (by the driver), and why it is ordered nevertheless (ordered anyway because "
        "...); then the readings",
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    add_knowledge_options(parser)


def run(args: argparse.Namespace) -> int:
    """Print whether the claim stands; return 0 if it does, 3 if doubtful, 4 if refuted."""
    name = [word for word in args.words if "=" not in word]
    typed = [word for word in args.words if "=" in word]
    if not name:
        raise ReadingError("No end was named; say what it is before the readings, such as JIC 8.")
    if not typed:
        raise ReadingError('No readings given; add some, such as thread_od="18.9 mm".')
    engine = engine_of(args)
    said = claim_of(" ".join(name))
    named = [word for word in typed if not word.startswith(SHORT)]
    short = " ".join(word.removeprefix(SHORT) for word in typed if word.startswith(SHORT))
    seen = {end.seen_as for end in understand(engine.catalogue, said.words).ends}
    likely = str(seen.pop()) if len(seen) == 1 else None
    readings, _ = readings_in(named, short, engine.catalogue.threads, likely)
    taken = likely if likely and implied_gender(readings) is None else ""
    if taken:
        readings = (Reading(Feature.GENDER, Choice(taken), How.EYE, taken), *readings)

    claim = hold(engine, said, engine.conclude(with_gender(readings)))
    if args.json:
        print_json(claim_json(claim))
    else:
        print(text_of(claim_blocks(claim, engine.catalogue, taken)), end="")
    return STATUS[claim.standing]
