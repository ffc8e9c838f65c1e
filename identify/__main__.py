"""Run whichend from a checkout: `python -m identify`."""

import sys

from identify.entry import main

sys.exit(main())
