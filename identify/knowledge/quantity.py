"""Lengths as tables write them: text with a unit."""

from identify.errors import ReadingError
from identify.knowledge.fields import Fields
from identify.reading.units import parse_length


def length_mm(fields: Fields, key: str, required: bool = True) -> float | None:
    """Return a length of a table entry [mm].

    Args:
        fields: The entry under check.
        key: Its field, a text such as "14 mm" or "1 1/16 in".
        required: Whether a missing field is a fault.

    Returns:
        The length, or None where it is missing or faulty; the fault is noted.
    """
    if not fields.has(key):
        if required:
            fields.fault(key, 'is missing; write a length with its unit, such as "14 mm"')
        return None
    value = fields.data[key]
    if not isinstance(value, str):
        fields.fault(key, f'is {value!r}, a number without a unit; write it like "14 mm"')
        return None
    try:
        length = parse_length(value)
    except ReadingError as error:
        fields.fault(key, f"cannot be read: {str(error).rstrip('.')}")
        return None
    if length.spread_mm:
        fields.fault(key, f'is a span, "{value}"; write one length')
        return None
    return length.mm
