"""A thread table -> its threads, with limits computed by the thread's own standard."""

from collections.abc import Iterator
from math import isclose

from identify.errors import TableError
from identify.frozen import dataclass, replace
from identify.knowledge.fields import Faults, Fields, length_mm
from identify.knowledge.source_tables import cite, read_provenance, support_of
from identify.knowledge.yaml_reader import read_yaml
from identify.model.source import Provenance, Support
from identify.model.thread import Band, Limits, Thread
from identify.threads import (
    american_pipe,
    hose_coupling,
    metric,
    metric_taper,
    unified,
    whitworth_pipe,
)
from identify.threads.designation import Designation, parse
from identify.threads.profile import MM_PER_INCH

# What a row of each system states; all else is computed.
_STATED = {
    "M": ("major", "pitch"),
    "M-TAPER": ("major", "pitch", "gauge_length", "useful_length"),
    "UN": ("major", "tpi"),
    "G": ("major", "tpi"),
    "ISO7": ("major", "tpi", "gauge_length", "beyond_gauge"),
    "NPT": ("major", "tpi", "gauge_length"),
    "NPTF": ("major", "tpi", "gauge_length"),
    "NPSM": ("pitch_diameter", "tpi"),
    "NH": ("major", "tpi"),
}
SYSTEMS = tuple(_STATED)
_SHARES_ROWS = {"NPTF": "NPT"}  # systems that may stand under `also` in another's table
LIMIT_KEYS = tuple(
    f"{gender}_{diameter}_{end}"
    for gender in ("external", "internal")
    for diameter in ("crest", "pitch")
    for end in ("min", "max")
)


@dataclass(frozen=True, slots=True)
class _Row:
    """One row under way: its numbers [mm, tpi] and its printed limits [mm]."""

    fields: Fields
    numbers: dict[str, float]
    printed: dict[str, float]


def read_threads(text: str, file: str, faults: Faults) -> list[Thread]:
    """Return the threads of a `thread_table/1` file, in table order.

    Args:
        text: The YAML document.
        file: Its name for messages.
        faults: Collects what is wrong, each with its line; faulty rows are left out.
    """
    try:
        data = read_yaml(text, file)
    except TableError as error:
        faults.found.extend(error.faults)
        return []
    top = Fields(data, file, faults, "thread table")
    top.choice("schema", ("thread_table/1",))
    system = top.choice("system", SYSTEMS)
    top.text("note")
    shared = read_provenance(top)
    particular = top.section("provenance_of")
    by_letters = {
        letters: support_of(particular.section(letters), shared) for letters in particular.data
    }
    particular.close()
    threads: dict[str, Thread] = {}
    for size in top.sections("sizes", "size"):
        for thread in _threads_of(size, system, shared, by_letters):
            if thread.designation in threads:
                size.fault("designation", f'"{thread.designation}" stands twice; remove one')
            threads.setdefault(thread.designation, thread)
    if not threads:
        top.fault("sizes", "holds no sound size")
    top.close()
    return list(threads.values())


def _threads_of(
    size: Fields, system: str, shared: Provenance, by_letters: dict[str, Provenance]
) -> Iterator[Thread]:
    first = size.text("designation")
    size.what = f'size "{first}"'
    stated = _STATED[system]
    numbers = {key: _number(size, key) for key in stated}
    printed, override_source = _printed(size, system)
    own = _row_support(size, override_source)
    also = size.texts("also")
    size.close()
    sound = {key: value for key, value in numbers.items() if value is not None}
    if len(sound) < len(stated) or (system == "NPSM" and len(printed) < len(LIMIT_KEYS)):
        return
    for name in (first, *also):
        try:
            said = parse(name)
        except ValueError as error:
            size.fault("designation" if name == first else "also", f"holds {error}")
            continue
        if system not in (said.system, _SHARES_ROWS.get(said.system)):
            size.fault("designation", f'"{name}" is no thread of system {system}; move it')
            continue
        _check_numbers(size, said, sound)
        provenance = own(by_letters.get(said.letters, shared))
        try:
            thread = _build(name, said, _Row(size, sound, printed), provenance)
            yield thread if system == "NPSM" else _overruled(thread, printed)
        except ValueError as error:
            size.fault("", f"cannot be built: {error}")


def _number(size: Fields, key: str) -> float | None:
    if key != "tpi":
        return length_mm(size, key)
    return size.number("tpi", low=4, high=80) or None


def _printed(size: Fields, system: str) -> tuple[dict[str, float], str]:
    """Return printed limits [mm] and the source that overrules the formula, if any."""
    key = "limits" if system == "NPSM" else "overrides"
    section = size.section(key)
    if system == "NPSM" and not size.has(key):
        size.fault(key, f"is missing; NPSM limits are printed: {', '.join(LIMIT_KEYS)}")
    found = {name: length_mm(section, name, required=system == "NPSM") for name in LIMIT_KEYS}
    section.close()
    source = ""
    if system != "NPSM" and size.has(key):
        entry = size.section("override_source")
        source = cite(entry, "source")
        entry.choice("basis", tuple(Support))
        entry.close()
    return {name: value for name, value in found.items() if value is not None}, source


@dataclass(frozen=True, slots=True)
class _RowSupport:
    """What a row says of its own support, to lay over that of the table."""

    fields: Fields
    checked: tuple[str, ...]
    note: str
    caveat: str

    def __call__(self, default: Provenance) -> Provenance:
        base = read_provenance(self.fields, default)
        return replace(
            base,
            checked_against=self.checked or base.checked_against,
            checked_note=self.note or base.checked_note,
            caveat=self.caveat or base.caveat,
        )


def _row_support(size: Fields, override_source: str) -> _RowSupport:
    checked = size.texts("checked_against")
    for key in checked:
        size.faults.cite(size.file, size.line_of("checked_against"), size.what, key)
    note = size.text("checked_note", "")
    if override_source:
        overruled = ", ".join(size.section("overrides").data).replace("_", " ")
        note = "; ".join(filter(None, (note, f"{overruled} as printed in {override_source}")))
    size.has("provenance")
    return _RowSupport(size, checked, note, size.text("caveat", ""))


def _check_numbers(size: Fields, said: Designation, numbers: dict[str, float]) -> None:
    """Note a fault where a row's numbers are not those of its designation."""
    if said.tpi is not None and said.tpi != numbers["tpi"]:
        size.fault("tpi", f"is {numbers['tpi']:g}, but the designation says {said.tpi:g}")
    if said.pitch_mm is not None and not isclose(said.pitch_mm, numbers["pitch"]):
        size.fault("pitch", f"is {numbers['pitch']:g} mm, but the designation says otherwise")
    unit = {"M": 1.0, "M-TAPER": 1.0, "UN": MM_PER_INCH}.get(said.system)
    if unit and not isclose(float(said.size) * unit, numbers["major"]):
        size.fault("major", f"is {numbers['major']:.4f} mm, but the designation says otherwise")


def _build(name: str, said: Designation, row: _Row, provenance: Provenance) -> Thread:
    """Hand the numbers to the module of the system; `ValueError` where its standard ends."""
    n = row.numbers
    match said.system:
        case "M":
            return metric.thread(name, n["major"], n["pitch"], provenance)
        case "M-TAPER":
            lengths = (n["gauge_length"], n["useful_length"])
            return metric_taper.thread(name, n["major"], n["pitch"], *lengths, provenance)
        case "UN":
            major = n["major"] / MM_PER_INCH
            return unified.thread(name, major, n["tpi"], said.letters, provenance)
        case "G":
            return whitworth_pipe.parallel(name, n["major"], n["tpi"], provenance)
        case "ISO7" if said.letters == "R":
            lengths = (n["gauge_length"], n["beyond_gauge"])
            return whitworth_pipe.taper_male(name, n["major"], n["tpi"], *lengths, provenance)
        case "ISO7":
            taper = whitworth_pipe.TAPER if said.letters == "Rc" else 0.0
            return whitworth_pipe.female_7_1(name, n["major"], n["tpi"], taper, provenance)
        case "NPSM":
            limits = (_limits(row.printed, "external"), _limits(row.printed, "internal"))
            diameter = n["pitch_diameter"]
            return american_pipe.parallel_thread(name, diameter, n["tpi"], limits, provenance)
        case "NH":
            return hose_coupling.thread(name, n["major"] / MM_PER_INCH, n["tpi"], provenance)
        case _:
            pipe_od, gauge = n["major"] / MM_PER_INCH, n["gauge_length"] / MM_PER_INCH
            return american_pipe.taper_thread(
                name, said.system, pipe_od, n["tpi"], gauge, provenance
            )


def _limits(printed: dict[str, float], gender: str) -> Limits:
    return Limits(
        *(
            Band(printed[f"{gender}_{diameter}_min"], printed[f"{gender}_{diameter}_max"])
            for diameter in ("crest", "pitch")
        )
    )


def _overruled(thread: Thread, printed: dict[str, float]) -> Thread:
    """Return the thread with the printed limits in place of the computed ones."""
    for gender, limits in (("external", thread.external), ("internal", thread.internal)):
        own = {key: value for key, value in printed.items() if key.startswith(gender)}
        if own and limits is None:
            raise ValueError(f"overrides of the {gender} thread, which {thread.designation} lacks")
        if own and limits is not None:
            computed = {
                f"{gender}_{diameter}_{end}": value
                for diameter, band in (("crest", limits.crest), ("pitch", limits.pitch))
                for end, value in (("min", band.low_mm), ("max", band.high_mm))
            }
            limits = _limits({**computed, **own}, gender)
            thread = (
                replace(thread, external=limits)
                if gender == "external"
                else replace(thread, internal=limits)
            )
    return thread
