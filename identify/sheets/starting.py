"""The first entries of a sheet from what is known of a hose already: both ends, its line, facts."""

from collections.abc import Mapping

from identify.frozen import NamedTuple


class KnownEnd(NamedTuple):
    """An end as it was identified or claimed: its id or words that name it, and its shape.

    "" stands for what is not known.
    """

    end: str = ""
    shape: str = ""


def entries_of_hose(
    a: KnownEnd, b: KnownEnd, printed: str, facts: Mapping[str, str]
) -> dict[str, str]:
    """Return entries by path for `filling.fill`.

    Args:
        a: One end.
        b: The other.
        printed: The line on the hose.
        facts: Of the job, by the field under which a sheet has them: reference, machine, quantity,
            measured_by, checked_by, note.
    """
    texts = {f"job.{field}": text for field, text in facts.items()}
    for side, known in (("a", a), ("b", b)):
        texts[f"{side}.end"], texts[f"{side}.shape"] = known
    return {path: text for path, text in {**texts, "hose.line": printed}.items() if text}
