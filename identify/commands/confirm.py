"""`whichend confirm`: does a claimed identity stand against readings?"""

import argparse

from identify.commands.options import add_knowledge_options, engine_of
from identify.commands.output import print_json
from identify.errors import ReadingError
from identify.model.feature import Feature
from identify.model.reading import Choice, How, Reading
from identify.model.verdict import Standing
from identify.pages.claim import claim_blocks, claim_json
from identify.pages.text import text_of
from identify.reading.consistency import implied_gender, with_gender
from identify.reading.names import one_end
from identify.reading.parse import parse_readings
from identify.reasoning.claim import hold

STATUS = {Standing.STANDS: 0, Standing.DOUBTFUL: 3, Standing.REFUTED: 4}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        "Hold a claimed identity against readings such as confirm flare37:-8:male "
        'thread_od="18.9 mm" pitch="16 tpi" seat_angle="37 deg half".'
    )
    parser.epilog = "Exit status: 0 it stands, 3 doubtful, 4 refuted; 2 what was typed is at fault."
    parser.add_argument(
        "words",
        nargs="+",
        metavar="END NAME=VALUE",
        help="the claimed end, by its id or by words that only it answers to; then the readings",
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    add_knowledge_options(parser)


def run(args: argparse.Namespace) -> int:
    """Print whether the claim stands; return 0 if it does, 3 if doubtful, 4 if refuted."""
    name = [word for word in args.words if "=" not in word]
    typed = [word for word in args.words if "=" in word]
    if not name:
        raise ReadingError("No end was named; write its id before the readings: flare37:-8:male.")
    if not typed:
        raise ReadingError('No readings given; add some, such as thread_od="18.9 mm".')
    engine = engine_of(args)
    readings = parse_readings(typed, engine.catalogue.threads)
    told = implied_gender(readings)
    end = one_end(engine.catalogue, " ".join(name))
    if told is None:
        readings = (Reading(Feature.GENDER, Choice(end.seen_as), How.EYE, end.seen_as), *readings)

    claim = hold(engine, end, with_gender(readings))
    if args.json:
        print_json(claim_json(claim))
    else:
        print(text_of(claim_blocks(claim, "" if told else end.seen_as)), end="")
    return STATUS[claim.standing]
