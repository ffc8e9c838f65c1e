"""What words of the trade were understood to mean: as text and as one JSON object."""

from typing import Any

from identify.pages.words import several
from identify.reading.names import Understood


def found_text(found: Understood) -> str:
    """Return what was understood and the ends, one a line, in 80 columns."""
    names = dict.fromkeys(end.family_name for end in found.ends if end.family in found.families)
    said = [" or ".join(names) or "any family"]
    if found.size:
        said.append(f"size {found.size}")
    if found.gender:
        said.append(found.gender)
    width = max(len(end.id) for end in found.ends)
    lines = [f"{', '.join(said)}: {several(len(found.ends), 'end')}"]
    for end in found.ends:
        guard = " (not hydraulic: leave alone)" if end.refuse else ""
        lines.append(f"  {end.id.ljust(width)}  {end.title}{guard}")
    return "\n".join(lines)


def found_json(found: Understood) -> dict[str, Any]:
    """Return the same as plain values, ready for `json.dumps`."""
    return {
        "query": found.query,
        "understood": {
            "family": list(found.families),
            "size": found.size,
            "gender": found.gender,
        },
        "ends": [end.id for end in found.ends],
    }
