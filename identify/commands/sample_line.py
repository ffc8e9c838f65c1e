"""The object of a line of JSON, read by the faster library of the extra `batch` where it can."""

import json
from collections.abc import Callable
from contextlib import suppress
from typing import Any

from identify.errors import ReadingError, quoted

FORM = 'is not {"id": …, "readings": {"gender": "male", …}}.'
LONGEST_LINE = 1_000_000  # characters of one batch line
Decode = Callable[[bytes, list[str]], dict[str, Any]]


def decoder() -> Decode:
    """Return what reads the object of a line: the faster library where it is installed and sure.

    It takes the last of two values of one key, and long numbers for rounded ones. So it is asked
    for words alone, as many as there are between the quotes of the line; else `json_object` is.
    """
    try:
        from orjson import loads
    except ImportError:
        return json_object

    def decode(line: bytes, faults: list[str]) -> dict[str, Any]:
        if len(line) <= LONGEST_LINE and b"\\" not in line:
            with suppress(ValueError):
                sample = loads(line)
                if line.count(b'"') == 2 * _words(sample):
                    found: dict[str, Any] = sample
                    return found
        return json_object(line, faults)

    return decode


def _words(sample: object) -> int:
    """Return how many keys and texts a sample holds, -1 where it may hold anything else."""
    readings = sample.get("readings") if isinstance(sample, dict) else None
    if not isinstance(sample, dict) or not isinstance(readings, dict):
        return -1
    count = len(sample) + 2 * len(readings)
    for value in readings.values():
        if value.__class__ is not str:
            return -1
    for value in sample.values():
        if value.__class__ is str:
            count += 1
        elif not (value is readings or value is None or value.__class__ is int):
            return -1
    return count


def json_object(line: bytes, faults: list[str]) -> dict[str, Any]:
    """Return the JSON object of a line; what JSON lets pass and we do not is added to `faults`."""
    if len(line) > LONGEST_LINE:
        raise ReadingError(f"is longer than {LONGEST_LINE} characters; one sample is a short line.")

    def once_each(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for key, value in pairs:
            if key in found:
                faults.append(f"gives {quoted(key)} twice; keep the one that is true.")
                value = None
            found[key] = value
        return found

    def no_number(word: str) -> None:
        faults.append(f"holds {word}, which is no number of JSON; write a number, or text.")

    try:
        text = line.decode("utf-8-sig")
        sample = json.loads(text, object_pairs_hook=once_each, parse_constant=no_number)
    except UnicodeDecodeError:
        raise ReadingError("is not UTF-8; save the file as UTF-8.") from None
    except (ValueError, RecursionError) as error:
        raise ReadingError(f"is not JSON ({error}).") from None
    if not isinstance(sample, dict):
        raise ReadingError(FORM)
    return sample
