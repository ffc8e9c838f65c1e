"""Resume the latest interview of a folder and answer until killed: `python writer.py FOLDER`.

Every answer is printed once it was called saved; the process that kills reads them.
"""

import itertools
import sys
from pathlib import Path

from identify.interview.session import Observed
from identify.jobs.saving import SAVED, Autosave
from identify.jobs.shelf import unfinished
from identify.model.feature import Feature
from identify.model.reading import How, Length, Reading

if __name__ == "__main__":
    folder = Path(sys.argv[1])
    autosave = Autosave(folder)
    found = unfinished(folder)
    start = len(found[0].events) if found else 0
    if found and autosave.take_up(found[0]) != SAVED:
        sys.exit(autosave.trouble)
    for number in itertools.count(start):
        mm = 10 + number % 100_000 / 1000
        reading = Reading(Feature.HEX, Length(mm), How.CALIPER, f"{mm:.3f} mm")
        if autosave.keep(Observed(reading)) != SAVED:
            sys.exit(autosave.trouble)
        print(f"{number} {reading.entered}", flush=True)
