"""`rules/assembly.yaml` -> what a made-up hose is worked out with."""

from itertools import pairwise

from identify.errors import TableError
from identify.knowledge.compiled import load_section
from identify.knowledge.fields import Faults, Fields, length_mm
from identify.knowledge.observation_tables import numbers
from identify.knowledge.source_tables import (
    SUPPORTS,
    check_citations,
    cite,
    open_table,
    read_sources,
)
from identify.knowledge.table_files import data_dir, files_of, text_of
from identify.model.assembly import (
    AngleTolerance,
    AssemblyRules,
    CleanlinessTarget,
    EndKind,
    Factor,
    LengthTolerance,
    MakingStep,
    MeasuringPoint,
    Says,
    VelocityRange,
)
from identify.model.source import Source, Support

ASSEMBLY_FILE = "rules/assembly.yaml"


def load_assembly_rules() -> AssemblyRules:
    """Return what a made-up hose is worked out with, from the cache where that is current.

    Raises:
        TableError: With every fault, if the file must be read anew and has any.
    """
    return load_section("assembly", AssemblyRules, build_assembly_rules)


def build_assembly_rules() -> AssemblyRules:
    """Read the file anew; see `load_assembly_rules`."""
    faults = Faults()
    text = text_of(data_dir("rules").joinpath("assembly.yaml"), ASSEMBLY_FILE)
    rules = read_assembly_rules(text, faults)
    sources: dict[str, Source] = {}
    for folder in ("thread_tables", "rules"):
        for name, file in files_of(data_dir(folder), ""):
            sources |= read_sources(text_of(file, name), name, Faults())
    check_citations(faults, sources)
    if faults.found:
        raise TableError(*faults.found)
    return rules


def read_assembly_rules(text: str, faults: Faults, file: str = ASSEMBLY_FILE) -> AssemblyRules:
    """Return the rules of an `assembly_rules/1` file; faults are collected with file and line."""
    top = open_table(text, file, faults, "assembly_rules/1")
    tests, bends, clean = (top.section(key) for key in ("tests", "bends", "cleanliness"))
    rules = AssemblyRules(
        length_tolerances=tuple(
            map(_length_tolerance, top.sections("length_tolerances", "tolerance"))
        ),
        measuring_points=tuple(map(_point, top.sections("measuring_points", "point"))),
        velocities=tuple(map(_velocity, top.sections("velocities", "velocity"))),
        proof=_factor(tests.section("proof"), "times"),
        burst=_factor(tests.section("burst"), "times"),
        angles=tuple(map(_angle, top.sections("orientation", "orientation"))),
        straight=_factor(bends.section("straight"), "times_outside"),
        shortening=_share(bends.section("shortening")),
        codes=numbers(clean, "codes"),
        codes_say=_says(clean),
        targets=tuple(map(_target, clean.sections("targets", "target"))),
        making=tuple(map(_step, top.sections("making", "step"))),
    )
    for section in (tests, bends, clean, top):
        section.close()
    _check(rules, top)
    return rules


def _says(entry: Fields) -> Says:
    return Says(cite(entry, "source"), Support(entry.choice("basis", SUPPORTS)))


def _length_tolerance(entry: Fields) -> LengthTolerance:
    sizes = entry.data.get("dn") or [0, 0]
    entry.asked.add("dn")
    if len(sizes) != 2 or not all(isinstance(each, int) for each in sizes) or sizes[0] > sizes[1]:
        entry.fault("dn", "must be two nominal sizes, the smaller first: [5, 25]")
        sizes = [1, 1]
    over = 0.0 if entry.data.get("over") == "0 mm" else length_mm(entry, "over") or 0.0
    entry.asked.add("over")
    found = LengthTolerance(
        standard=entry.text("standard"), of=entry.text("of"), dn_low=sizes[0], dn_high=sizes[1],
        over_mm=over, to_mm=length_mm(entry, "to", required=False),
        plus=entry.number("plus", low=0, high=100), minus=entry.number("minus", low=0, high=100),
        percent=entry.choice("unit", ("mm", "percent")) == "percent", says=_says(entry),
    )  # fmt: skip
    if found.to_mm is not None and not found.over_mm < found.to_mm:
        entry.fault("to", "is not above over")
    entry.close()
    return found


def _point(entry: Fields) -> MeasuringPoint:
    points = entry.texts("points")
    found = MeasuringPoint(
        EndKind(entry.choice("end", tuple(EndKind))), points, entry.text("ask", ""), _says(entry)
    )
    if not points or (len(points) > 1) != bool(found.ask):
        entry.fault("points", "must be one, or several and what to ask")
    entry.close()
    return found


def _velocity(entry: Fields) -> VelocityRange:
    found = VelocityRange(
        entry.text("line"), entry.number("low", low=0.01, high=50),
        entry.number("high", low=0.01, high=50), _says(entry),
    )  # fmt: skip
    if not found.low_m_s < found.high_m_s:
        entry.fault("low", "is not below high")
    entry.close()
    return found


def _factor(entry: Fields, key: str) -> Factor:
    found = Factor(
        entry.number(key, low=1, high=100), entry.number("low_s", 0, low=0, high=3600),
        entry.number("high_s", 0, low=0, high=3600), _says(entry),
    )  # fmt: skip
    entry.close()
    return found


def _share(entry: Fields) -> Factor:
    found = Factor(entry.number("percent", low=0, high=50) / 100, 0, 0, _says(entry))
    entry.close()
    return found


def _angle(entry: Fields) -> AngleTolerance:
    found = AngleTolerance(
        length_mm(entry, "to", required=False), entry.number("plus_minus_deg", low=0.1, high=45),
        _says(entry),
    )  # fmt: skip
    entry.close()
    return found


def _target(entry: Fields) -> CleanlinessTarget:
    found = CleanlinessTarget(entry.text("of"), entry.text("code"), _says(entry))
    parts = found.code.split("/")
    if len(parts) != 3 or not all(part.isdecimal() for part in parts):
        entry.fault("code", f'is "{found.code}"; write it as "18/16/13"')
    entry.close()
    return found


def _step(entry: Fields) -> MakingStep:
    found = MakingStep(entry.text("step"), entry.text("do"), entry.text("caution"), _says(entry))
    entry.close()
    return found


def _check(rules: AssemblyRules, top: Fields) -> None:
    """Note what the lines say together and cannot be: gaps, overlaps, codes that fall."""
    groups: dict[tuple[str, int], list[LengthTolerance]] = {}
    for each in rules.length_tolerances:
        for dn in range(each.dn_low, each.dn_high + 1):
            groups.setdefault((each.standard, dn), []).append(each)
    for (standard, dn), rows in groups.items():
        ends = [(row.over_mm, row.to_mm) for row in rows]
        if ends[0][0] or ends[-1][1] is not None or any(a[1] != b[0] for a, b in pairwise(ends)):
            top.fault("length_tolerances", f"of {standard}, DN {dn} leave a gap or overlap")
            break
    if any(not a < b for a, b in pairwise(rules.codes)):
        top.fault("cleanliness", "holds codes that do not rise")
    missing = set(EndKind) - {each.end for each in rules.measuring_points}
    if missing:
        top.fault("measuring_points", f"lack {', '.join(sorted(missing))}")
    if len({each.name for each in rules.making}) < max(1, len(rules.making)):
        top.fault("making", "is missing, or names a step twice")
    if rules.angles and rules.angles[-1].to_mm is not None:
        top.fault("orientation", "must end with a tolerance for every longer hose")
