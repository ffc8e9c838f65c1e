"""Answers of a batch as lines of JSON: the bytes of `verdict_json`, put together from pieces.

Most of a line was written before: of a row all but its probabilities, of what a reading says all
but the end it is said of. Such pieces are kept as text, a limited number of each kind.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from contextlib import suppress
from functools import lru_cache
from typing import Any, TypeVar

from identify.frozen import NamedTuple, replace
from identify.model.connection import EndConnection, Seat
from identify.model.feature import FEATURES, Kind
from identify.model.verdict import Brief, Certain, Danger, Evidence, Form, Ranked, Verdict, Warning
from identify.pages.as_json import (
    CERTAIN,
    beyond_json,
    brief_json,
    candidate_json,
    danger_json,
    lookalikes_of,
    name_json,
    question_json,
    suspect_json,
    verdict_json,
    warning_json,
    weight_of,
)
from identify.pages.reasons import evidence_words

KEPT = 8192  # pieces of a kind, of some 500 characters
_END = "\0"  # stands where the id of an end will; no text of JSON holds it
_SMALL = 0.0001  # below it Python writes other digits than the faster library

Encode = Callable[[object], str]
K = TypeVar("K")
Found = Verdict | Brief | None  # what was concluded, None where nothing could be


class _Piece(NamedTuple):
    """Text before and behind what changes, and what it was written of.

    That is kept so that nothing else can come to stand in its place in memory.
    """

    before: str
    behind: str
    of: object


def encoder() -> Encode:
    """Return what writes JSON: the faster library where it is installed and can.

    Both write the same values; of numbers under 0.0001 the faster one may write other digits.
    """
    plain = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode
    fast = _faster()
    if fast is None:
        return plain

    def encode(answer: object) -> str:
        with suppress(TypeError):  # a whole number of more than 64 bits, half a character
            return fast(answer)
        return plain(answer)

    return encode


def _faster() -> Encode | None:
    try:
        from orjson import dumps
    except ImportError:
        return None

    def fast(value: object) -> str:
        text: str = dumps(value).decode()
        return text

    return fast


def found_json(found: Found) -> dict[str, Any]:
    """Return what was concluded as plain values."""
    if isinstance(found, Verdict):
        return verdict_json(found)
    return brief_json(found) if found else {}


class Lines:
    """Writes what is concluded from one catalogue and one rule book as lines of JSON."""

    def __init__(self) -> None:
        self._encode = encoder()
        self._pieces = _Pieces(fast) if (fast := _faster()) else None

    def line(self, head: dict[str, Any], found: Found, tail: dict[str, Any]) -> str:
        """Return a line, without its end.

        Args:
            head: The fields that stand before what was concluded, one at least.
            found: What was.
            tail: The fields that stand behind it.
        """
        if self._pieces and isinstance(found, Verdict) and not found.learnt:
            with suppress(TypeError):  # as in `encoder`
                return self._pieces.line(head, found, tail)
        return self._encode({**head, **found_json(found), **tail})


class _Pieces:
    """Writes verdicts by the faster library, and only what was not written before."""

    def __init__(self, write: Encode) -> None:
        self._write = write
        self._chance = chances(write)
        self._text, self._list = lru_cache(KEPT)(write), lru_cache(KEPT)(write)
        self._rows: dict[tuple[int, int], _Piece] = {}
        self._said: dict[int, str] = {}  # by the place in memory of what stands in `_of`
        self._of: list[Evidence] = []
        self._rules: dict[str, _Piece] = {}
        self._dangers: dict[int, _Piece] = {}
        self._names: dict[str, _Piece] = {}

    def line(self, head: dict[str, Any], verdict: Verdict, tail: dict[str, Any]) -> str:
        """Return a verdict as a line; see `Lines.line`."""
        write, text = self._write, self._text
        question, beyond = verdict.question, verdict.beyond
        return (
            f'{write(head)[:-1]},"verdict":"{verdict.kind}","sentence":{write(verdict.sentence)}'
            f',"candidates":[{",".join(map(self._candidate, verdict.ranking))}]'
            f',"none_of_these":{self._chance(verdict.none_of_these)}'
            f',"unlisted_size":{text(verdict.unlisted_size or None)}'
            f',"certain":[{",".join(map(self._certain, verdict.certain))}]'
            f',"suspect_readings":{write([suspect_json(each) for each in verdict.suspects])}'
            f',"lookalikes":[{",".join(map(self._danger, lookalikes_of(verdict)))}]'
            f',"warnings":[{",".join(map(self._warning, verdict.warnings))}]'
            f',"evidence":[{self._evidence(verdict.ranking)}]'
            f',"next_question":{write(question_json(question)) if question else "null"}'
            f',"beyond":{write(beyond_json(beyond)) if beyond else "null"}'
            f',"cautions":{self._list(verdict.cautions)},"care":{text(verdict.care or None)}'
            f"{f',{write(tail)[1:]}' if tail else '}'}"
        )

    def _candidate(self, ranked: Ranked) -> str:
        end, seat, chance = ranked.end, ranked.seat, self._chance
        before, behind, _ = self._rows.get((id(end), id(seat))) or self._row(end, seat)
        share, own = ranked.probability, ranked.own_probability
        whole = chance(share)
        alone = whole if own == share else chance(own)  # most answers are one row
        twins = ",".join(map(self._name, ranked.twins)) if ranked.twins else ""
        forms = ",".join(map(self._form, ranked.forms)) if ranked.forms else ""
        return (
            f'{before}"probability":{whole},"own_probability":{alone}'
            f',"cannot_be_told_from":[{twins}],"other_forms":[{forms}]{behind}'
        )

    def _row(self, end: EndConnection, seat: Seat) -> _Piece:
        whole = self._write(candidate_json(Ranked(end, 0.5, 0.5, seat, (), ())))
        changes = (
            '"probability":0.5,"own_probability":0.5,"cannot_be_told_from":[],"other_forms":[]'
        )
        before, behind = whole.split(changes)
        return _kept(self._rows, (id(end), id(seat)), _Piece(before, behind, (end, seat)))

    def _form(self, form: Form) -> str:
        return f'{self._name(form.end)[:-1]},"probability":{self._chance(form.probability)}}}'

    def _name(self, end: EndConnection) -> str:
        piece = self._names.get(end.id)
        if piece is None:
            text = self._write(name_json(end))
            piece = _kept(self._names, end.id, _Piece(text, "", end))
        return piece.before

    def _certain(self, known: Certain) -> str:
        return (
            f'{{"level":"{known.level}","value":{self._text(known.value)}'
            f',"probability":{self._chance(known.probability)}}}'
        )

    def _danger(self, danger: Danger) -> str:
        """Return a lookalike; one that the tables name is the same value whenever it comes."""
        if danger.probability:
            return self._write(danger_json(danger))
        piece = self._dangers.get(id(danger))
        if piece is None:
            text = self._write(danger_json(danger))
            piece = _kept(self._dangers, id(danger), _Piece(text, "", danger))
        return piece.before

    def _warning(self, warning: Warning) -> str:
        piece = self._rules.get(warning.rule)
        if piece is None:
            whole = self._write(warning_json(replace(warning, because="")))
            before, behind = whole.split('"because":""')
            piece = _kept(self._rules, warning.rule, _Piece(before, behind, warning))
        return f'{piece.before}"because":{self._write(warning.because)}{piece.behind}'

    def _evidence(self, ranking: Iterable[Ranked]) -> str:
        """Return what each reading says of each candidate.

        What is said of a length is new with each verdict, all else comes again.
        """
        said, new, found = self._said, dict[int, str](), list[str]()
        for ranked in ranking:
            pieces = []
            for each in ranked.evidence:
                place = id(each)
                piece = said.get(place) or new.get(place)
                if piece is None:
                    if FEATURES[each.feature].kind is Kind.LENGTH:
                        piece = new[place] = self._says(each)
                    else:
                        piece = self._says_again(each)
                pieces.append(piece)
            if pieces:
                found.append(",".join(pieces).replace(_END, self._text(ranked.end.id)))
        return ",".join(found)

    def _says_again(self, each: Evidence) -> str:
        if len(self._said) >= KEPT:
            self._said.clear()
            self._of.clear()
        piece = self._says(each)
        self._of.append(each)
        self._said[id(each)] = piece
        return piece

    def _says(self, each: Evidence) -> str:
        return (
            f'{{"reading":"{each.feature}","candidate":{_END},"weight":{weight_words(each.weight_nats)}'
            f',"sentence":{self._write(evidence_words(each))}}}'
        )


def _kept(pieces: dict[K, _Piece], key: K, piece: _Piece) -> _Piece:
    """Keep a piece under a key; where too many are kept, all others go."""
    if len(pieces) >= KEPT:
        pieces.clear()
    pieces[key] = piece
    return piece


def chances(write: Encode) -> Callable[[float], str]:
    """Return what writes `chance` of a probability as the faster library does."""
    small = lru_cache(KEPT)(write)

    def chance(probability: float) -> str:
        if probability < _SMALL:
            return small(round(probability, 6))
        if probability >= CERTAIN:
            return str(CERTAIN)
        return f"{probability:.6f}".rstrip("0")

    return chance


def weight_words(nats: float) -> str:
    """Return a weight with three decimals as the faster library writes it."""
    text = f"{weight_of(nats):.3f}".rstrip("0")
    return f"{text}0" if text[-1] == "." else text
