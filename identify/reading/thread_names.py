"""Threads by name: how they are called, and a name typed where a measurement is asked.

"1 1/16-12" typed as a diameter is no span from 1 1/16 to 12 inches, and "G 1/2" is not half an
inch wide. Names are recognised however they are spaced; what a thread of that name measures is
computed from the threads of the tables, where they are at hand.
"""

from identify.errors import ReadingError, quoted
from identify.frozen import dataclass
from identify.light import Collection, Iterable, Mapping, lru_cache, re
from identify.model.feature import FEATURES, Feature
from identify.model.thread import Limits, Thread
from identify.ratio import Ratio
from identify.reading.numbers import clean, exact_number
from identify.reading.units import INCH_MM

SHOWN_THREADS = 3
LEAST_RATIO = Ratio(8, 3)  # threads per inch over inches, of all bare SIZE-TPI of the tables

_UNIFIED = frozenset({"un", "unc", "unf", "unef", "uns"})
_LETTERS: dict[str, frozenset[str]] = {
    **{each: frozenset({each}) for each in ("g", "r", "rc", "rp", "npt", "nptf", "npsm", "nh")},
    **dict.fromkeys(_UNIFIED, _UNIFIED),
    "bsp": frozenset({"g", "r", "rc", "rp"}),
    "bspp": frozenset({"g"}),
    "bspt": frozenset({"r", "rc"}),
}
"""Letters as they are typed -> letters of the standards that they may mean."""

_WORD = "(?P<letters>" + "|".join(sorted(_LETTERS, key=len, reverse=True)) + ")"
_SIZE = r"(?P<size>[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[.,]?[0-9]+)"
_TPI = r"(?P<tpi>[0-9]+ 1/2|[0-9]+(?:[.,]5)?)"
_UNIT = r' ?(?P<unit>"|in\.?|inch|inches|mm)?'
_METRIC = (
    r"(?P<m>m ?)?(?P<size>[0-9]+(?:[.,][0-9]+)?)(?: ?[x×*] ?(?P<pitch>[0-9]+(?:[.,][0-9]+)?))?"
    r"(?: ?-? ?[4-8][a-h]{1,2}(?:[4-8][a-h])?)?(?P<taper> ?keg)?(?: mm)?"
)
_INCH = rf'{_SIZE} ?"? ?[-x×] ?{_TPI}(?: ?{_WORD})?(?: ?-? ?[123][ab])?{_UNIT}'
_PIPE = (
    rf'{_WORD} ?{_SIZE}(?: ?"| in)? ?[ab]?|'
    rf'{_SIZE.replace("size", "after")} ?"? ?{_WORD.replace("letters", "before")} ?[ab]?'
)


@dataclass(frozen=True, slots=True)
class ThreadName:
    """What a thread's name says.

    `letters` are those of the standards that may be meant, empty for none said ("1/2-20"). `size`
    is in millimetres for metric names, else in inches; `tpi` or `pitch_mm` is None where the name
    does not tell it.
    """

    letters: frozenset[str]
    size: Ratio
    tpi: Ratio | None = None
    pitch_mm: Ratio | None = None

    @property
    def metric(self) -> bool:
        """Whether the name is a metric one."""
        return not self.letters.isdisjoint({"m", "keg"})

    def means(self, other: "ThreadName") -> bool:
        """Tell whether the full name `other` may be meant by this one."""
        return (
            self.size == other.size
            and self.metric == other.metric
            and (not self.letters or not self.letters.isdisjoint(other.letters))
            and self.tpi in (None, other.tpi)
            and self.pitch_mm in (None, other.pitch_mm)
        )


@lru_cache(maxsize=2048)
def thread_name(text: str) -> ThreadName | None:
    """Return the thread's name that a text is, None if it is none: "M22x1.5", "G 1/2", "7/16-20".

    Raises:
        ReadingError: As `clean`.
    """
    plain = re.sub(r" (?:fe)?male$", "", clean(text).lower())
    try:
        return _metric(plain) or _inch(plain) or _pipe(plain)
    except ReadingError:  # numbers that are none: whoever reads the text as a size says so
        return None


def thread_names(designation: str) -> tuple[str, ...]:
    """Return a thread as it is said or stamped: whole, short, in the trade's letters for pipe."""
    letters, _, size = designation.partition(" ")
    if designation.startswith("M"):
        return designation, letters, letters.split("x")[0]
    if letters == "G":
        return designation, f"{size} BSP", f"{size} BSPP"
    if letters in ("R", "Rc", "Rp"):
        return designation, f"{size} BSP", f"{size} BSPT", f"{size} PT"
    named, _, series = designation.rpartition(" ")
    if series.startswith("UN"):  # "3/4-16 UNF", of which the series is often left off
        return designation, named
    if series.startswith("NP"):  # "1/2-14 NPT", mostly said without its pitch
        return designation, f"{named.rpartition('-')[0]} {series}"
    return (designation,) if designation else ()


def refuse_name(text: str, feature: Feature, threads: Mapping[str, Thread]) -> None:
    """Refuse a thread's name given for a measurement.

    Args:
        text: What was typed.
        feature: What was asked.
        threads: Those of the tables, by designation; none where no tables are at hand.

    Raises:
        ReadingError: It is a thread's name; tells what such a thread measures.
    """
    name = thread_name(text)
    if name is None:
        return
    meant = [thread for thread in threads.values() if _is(name, thread)]
    told = _measures(meant, feature)
    if not told:
        pitch = _pitch(name)
        rest = f' and pitch="{pitch}" if a gauge says so too' if pitch else ""
        told = [f"write what a caliper reads, such as 20.9 mm{rest}"]
        if threads:
            told[0] = f"no thread of that name is in the tables; {told[0]}"
    more = f"; {len(told) - SHOWN_THREADS} more are called so" if len(told) > SHOWN_THREADS else ""
    raise ReadingError(
        f"{quoted(text)} is the name of a thread, not a measurement. Measure it: "
        f"{'; '.join(told[:SHOWN_THREADS])}{more}."
    )


def _is(name: ThreadName, thread: Thread) -> bool:
    own = thread_name(thread.designation)
    return own is not None and name.means(own)


def _measures(threads: Collection[Thread], feature: Feature) -> list[str]:
    """Return what threads measure as made, "a 7/16-20 UNF reads …"; once for equal figures."""
    told: dict[str, str] = {}
    for thread in threads:
        for figures in _figures(thread, feature):
            told.setdefault(figures, f"a {thread.designation} reads {figures}")
    return list(told.values())


def _figures(thread: Thread, feature: Feature) -> Iterable[str]:
    pitch = f'{Feature.PITCH}="{thread.pitch_words}"'
    sides = (Feature.THREAD_OD, thread.external), (Feature.THREAD_ID, thread.internal)
    asked = [side for side in sides if side[0] is feature and side[1]]
    for side, limits in asked or [each for each in sides if each[1]][:1]:
        if limits:
            yield f'{side}="{_middle(limits)}" and {pitch}'


def _middle(limits: Limits) -> str:
    return f"{limits.crest.middle_mm:.1f}".removesuffix(".0") + " mm"


def _pitch(name: ThreadName) -> str:
    if name.tpi:
        return f"{float(name.tpi):g} tpi"
    return f"{float(name.pitch_mm):g} mm" if name.pitch_mm else ""


def _metric(plain: str) -> ThreadName | None:
    found = re.fullmatch(_METRIC, plain)
    if not found or not (found["m"] or found["pitch"]):
        return None
    size, pitch = _number(found["size"]), _number(found["pitch"])
    if size is None or (found["pitch"] and not _can_be(pitch)):
        return None
    return ThreadName(frozenset({"keg" if found["taper"] else "m"}), size, pitch_mm=pitch)


def _inch(plain: str) -> ThreadName | None:
    found = re.fullmatch(_INCH, plain)
    size, tpi = (_number(found["size"]), _number(found["tpi"])) if found else (None, None)
    if not found or size is None or not tpi or not _can_be(INCH_MM / tpi):
        return None
    if not found["letters"]:
        whole = "/" not in found["size"]
        if tpi < LEAST_RATIO * size or (found["unit"] == "mm" and whole):
            return None  # a span
    return ThreadName(_LETTERS.get(found["letters"] or "", frozenset()), size, tpi=tpi)


def _pipe(plain: str) -> ThreadName | None:
    found = re.fullmatch(_PIPE, plain)
    size = _number(found["size"] or found["after"]) if found else None
    if not found or size is None:
        return None
    return ThreadName(_LETTERS[found["letters"] or found["before"]], size)


def _can_be(pitch_mm: Ratio | None) -> bool:
    info = FEATURES[Feature.PITCH]
    return pitch_mm is not None and info.low <= pitch_mm <= info.high


def _number(text: str | None) -> Ratio | None:
    return exact_number(text) if text else None
