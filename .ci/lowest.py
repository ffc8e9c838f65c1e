"""Print the lowest versions that pyproject.toml declares, one requirement a line, for pip.

`python .ci/lowest.py` prints those of the program and of its tests; each requirement must name a
lowest version, else what CI tries would not be what is promised.
"""

import re
import sys
import tomllib
from pathlib import Path

PROJECT = tomllib.loads(Path("pyproject.toml").read_text(encoding="utf-8"))["project"]


def lowest(requirement: str) -> str:
    """Return "name==version" of a requirement "name>=version,…"."""
    found = re.fullmatch(r"([\w.-]+)>=([\w.]+)(,.*)?", requirement.replace(" ", ""))
    if not found:
        sys.exit(f"pyproject.toml: {requirement} names no lowest version; write name>=version.")
    return f"{found[1]}=={found[2]}"


if __name__ == "__main__":
    extras = PROJECT["optional-dependencies"]
    tests = [each for each in extras["test"] if not each.startswith(PROJECT["name"])]
    wanted = [*PROJECT["dependencies"], *extras["batch"], *tests]
    print("\n".join(map(lowest, wanted)))
