"""Classes of cleanliness by ISO 4406: three numbers, particles per ml from 4, 6 and 14 um on."""

from bisect import bisect_left

from identify.errors import AssemblyError
from identify.model.assembly import AssemblyRules

_NAS_ABOVE = (11, 9, 6)  # what the three numbers are above the class, about


def code_of(particles_per_ml: float, rules: AssemblyRules) -> int:
    """Return the code of a count; one above the last means more than the table ends with.

    Raises:
        AssemblyError: A count below 0.

    Source:
        ISO 4406:2021, Table 1: a code holds for more than the last and up to its own count.
    """
    if not particles_per_ml >= 0:
        raise AssemblyError(f"{particles_per_ml:g} particles per ml is no count.")
    return bisect_left(rules.codes, particles_per_ml)


def parse_class(text: str) -> tuple[int, ...]:
    """Read a class of ISO 4406: "18/16/13", or two numbers of the older form.

    Raises:
        AssemblyError: Not two or three numbers that fall or stay.
    """
    parts = text.strip().split("/")
    numbers = tuple(int(part) for part in parts if part.isdecimal() and len(part) <= 2)
    if len(parts) not in (2, 3) or len(numbers) != len(parts):
        raise AssemblyError(f'"{text[:40]}" is no class of ISO 4406; write it as 18/16/13.')
    if list(numbers) != sorted(numbers, reverse=True):
        raise AssemblyError(
            f'"{text[:40]}" rises: there are never more large particles than small ones. Write '
            "the number of the smallest size first."
        )
    return numbers


def is_clean_enough(measured: tuple[int, ...], wanted: tuple[int, ...]) -> bool:
    """Tell whether every number of a class is at most that of the other.

    Raises:
        AssemblyError: One has two numbers and the other three: they count other sizes.
    """
    if len(measured) != len(wanted):
        raise AssemblyError(
            "A class of two numbers counts from 5 and 15 um on, one of three from 4, 6 and 14: "
            "they cannot be held against each other number by number."
        )
    return all(one <= other for one, other in zip(measured, wanted, strict=True))


def iso_of_nas(nas_class: int) -> tuple[int, ...]:
    """Return about the class of ISO 4406 for one of NAS 1638, 1 to 12; never the other way.

    NAS counts ranges per 100 ml, ISO all above a size per ml; NAS 1638 is withdrawn.

    Source:
        A published table of correspondence; no standard gives one.
    """
    if not 1 <= nas_class <= 12:
        raise AssemblyError(f"{nas_class} is no class of NAS 1638 from 1 to 12.")
    return tuple(nas_class + above for above in _NAS_ABOVE)
