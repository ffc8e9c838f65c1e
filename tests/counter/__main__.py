"""Keys and questions of ten samples at the counter: `python -m tests.counter`."""

import tempfile
from pathlib import Path

from tests.counter.hand import NEXT_JOB, take
from tests.counter.samples import SAMPLES

with tempfile.TemporaryDirectory() as folder:
    morning = take(Path(folder), SAMPLES)
total = 0
for each in morning:
    told, keys = each.keys.replace("\n", "⏎"), len(each.keys)
    total += keys
    print(f"{each.sample.end:<32} {keys:>3} keys {len(each.asked):>2} questions  {told}")
    print(f"    {each.verdict}{'' if each.right else ', not named'}; asked {' '.join(each.asked)}")
asked = sum(len(each.asked) for each in morning)
print(
    f"mean {total / len(morning):.1f} keys, {asked / len(morning):.1f} questions a sample, from "
    f"its first question to its verdict; {len(NEXT_JOB)} more to the next job, 1 for a label"
)
