"""The reference of a job: short, read out and typed without a slip, and found by a scanner.

Five characters and a check character, in two groups: "K7M-3P4". The alphabet has no 0, O, 1, I or
L. It has 31 characters, a prime, so that the check finds every one wrong character and any two that
changed places (a weighted sum modulo a prime; textbook result). There are 31^5 = 28,629,151.
"""

from identify.errors import ReadingError

ALPHABET = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
DRAWN = 5  # characters before the check
SCANNED = "JOB"  # stands before a reference in a code: a capital is no command on any screen


def reference_of(number: int) -> str:
    """Return the reference of a number, of which the last five digits to base 31 count."""
    drawn = ""
    for _ in range(DRAWN):
        number, rest = divmod(number, len(ALPHABET))
        drawn = ALPHABET[rest] + drawn
    return _grouped(drawn + ALPHABET[-_sum(drawn) % len(ALPHABET)])


def reference_said(text: str) -> str:
    """Return the reference that was typed or scanned, as it is printed.

    Capitals, blanks and hyphens make no difference, nor does "JOB" before it.

    Raises:
        ReadingError: It is none; says what does not fit.
    """
    plain = "".join(text.upper().replace("-", " ").split()).removeprefix(SCANNED)
    if len(plain) != DRAWN + 1:
        raise ReadingError(f'"{text[:40]}" is no reference; one has 6 characters, as in K7M-3P4.')
    for character in plain:
        if character not in ALPHABET:
            raise ReadingError(
                f'"{text[:40]}" is no reference: none has {character}. Read it again.'
            )
    if (_sum(plain[:DRAWN]) + ALPHABET.index(plain[DRAWN])) % len(ALPHABET):
        raise ReadingError(
            f'"{text[:40]}" is no reference: a character is wrong, or two changed places. '
            "Read it again."
        )
    return _grouped(plain)


def scanned(reference: str) -> str:
    """Return what the code on a label says, as a scanner types it."""
    return f"{SCANNED} {reference}"


def meant_as_reference(text: str) -> bool:
    """Tell whether somebody who typed or scanned this means a reference, right or wrong.

    That is so with "JOB" before it, with the hyphen in its place, and with six capitals and digits
    of which one is a digit, as a scanner types them.
    """
    plain = " ".join(text.split())
    bare = plain.upper().removeprefix(SCANNED).strip()
    told = bare != plain.upper() and bare.replace("-", "").replace(" ", "").isalnum()
    if not bare.isascii() or len(bare) > DRAWN + 2:
        return False
    if told:
        return len(bare) > DRAWN
    parts = [len(part) for part in bare.split("-") if part.isalnum()]
    capitals = plain.isalnum() and plain == bare and any(c.isdigit() for c in plain)
    return parts == [3, 3] or (parts == [DRAWN + 1] and capitals)


def _sum(drawn: str) -> int:
    return sum(weight * ALPHABET.index(each) for weight, each in enumerate(drawn, 2))


def _grouped(plain: str) -> str:
    return f"{plain[:3]}-{plain[3:]}"
