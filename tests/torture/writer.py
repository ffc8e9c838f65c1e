"""Resume the latest interview of a folder and answer until killed: `writer.py FOLDER [BYTES]`.

Every answer is printed once it was called saved; the process that kills reads them. With BYTES no
file can grow beyond that, as on a disk that runs full: the write before the last may be torn.
"""

import itertools
import resource
import signal
import sys
from pathlib import Path

from identify.interview.session import Observed
from identify.jobs.facts import Field, Noted
from identify.jobs.saving import SAVED, Autosave
from identify.jobs.shelf import unfinished
from identify.model.feature import Feature
from identify.model.reading import How, Length, Reading

NOTED_EACH = 5  # answers, after which a fact of the job is written

if __name__ == "__main__":
    folder = Path(sys.argv[1])
    autosave = Autosave(folder)
    found = unfinished(folder)
    start = len(found[0].events) if found else 0
    if len(sys.argv) > 2:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[2]), resource.RLIM_INFINITY))
    if found and autosave.take_up(found[0]) != SAVED:
        sys.exit(autosave.trouble)
    for number in itertools.count(start):
        mm = 10 + number % 100_000 / 1000
        reading = Reading(Feature.HEX, Length(mm), How.CALIPER, f"{mm:.3f} mm")
        if autosave.keep(Observed(reading)) != SAVED:
            sys.exit(autosave.trouble)
        print(f"{number} {reading.entered}", flush=True)
        if number % NOTED_EACH == 0 and autosave.keep(Noted(Field.BAG, str(number))) != SAVED:
            sys.exit(autosave.trouble)
