"""The reference of a job: short, read out and typed without a slip, and found by a scanner.

Five characters and a check character, in two groups: "K7M-3P4". The alphabet has no 0, O, 1, I or
L. It has 31 characters, a prime, so that the check finds every one wrong character and any two that
changed places (a weighted sum modulo a prime; textbook result). There are 31^5 = 28,629,151.
"""

from identify.errors import ReadingError

ALPHABET = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
DRAWN = 5  # characters before the check


def reference_of(number: int) -> str:
    """Return the reference of a number, of which the last five digits to base 31 count."""
    drawn = ""
    for _ in range(DRAWN):
        number, rest = divmod(number, len(ALPHABET))
        drawn = ALPHABET[rest] + drawn
    return _grouped(drawn + ALPHABET[-_sum(drawn) % len(ALPHABET)])


def reference_said(text: str) -> str:
    """Return the reference that was typed or scanned, as it is printed.

    Capitals, blanks and hyphens make no difference.

    Raises:
        ReadingError: It is none; says what does not fit.
    """
    plain = "".join(text.upper().replace("-", " ").split())
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


def _sum(drawn: str) -> int:
    return sum(weight * ALPHABET.index(each) for weight, each in enumerate(drawn, 2))


def _grouped(plain: str) -> str:
    return f"{plain[:3]}-{plain[3:]}"
