"""What a sheet comes to, as one list of named values: for JSON, and to tell two sheets apart."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from identify.frozen import dataclass
from identify.sheets.conclusion import conclusion
from identify.sheets.entries import BY_PATH
from identify.sheets.filling import still_missing
from identify.sheets.finding import Finding, capital
from identify.sheets.known import MadeWith
from identify.sheets.working import Worked

_DECIMALS = 6
_MADE_WITH = {
    "made_with.ends": "Tables of ends", "made_with.hoses": "Tables of hoses",
    "made_with.rules": "Rules", "made_with.program": "Program",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Result:
    """One value that was worked out: where it stands in the object, what it is called, the value.

    None stands for what cannot be told.
    """

    path: str
    title: str
    value: float | str | bool | None


@dataclass(frozen=True, slots=True)
class Change:
    """A value that differs between two sheets; "" where one of them has none."""

    title: str
    before: str
    after: str


def results(worked: Worked) -> Iterator[Result]:
    """Yield all results, in the order of the page."""
    length, rating, flow = worked.length, worked.rating, worked.flow
    yield Result("hose.id", "Hose", worked.hose.id if worked.hose else None)
    yield Result("length.cut_mm", "Cut length [mm]", length.cut_mm)
    yield Result("length.free_mm", "Free hose [mm]", length.free_mm)
    yield Result("length.plus_mm", "Tolerance, plus [mm]", _of(length.band, "plus_mm"))
    yield Result("length.minus_mm", "Tolerance, minus [mm]", _of(length.band, "minus_mm"))
    yield Result("length.aim_mm", "Aim [mm]", length.aim_mm)
    yield Result("length.likely_error_mm", "Likely error [mm]", _of(length.budget, "likely_mm"))
    yield Result("length.worst_error_mm", "Error at worst [mm]", _of(length.budget, "worst_mm"))
    yield Result("angle.near_deg", "Angle [deg]", _of(worked.angle, "angle"))
    for part in worked.parts:
        key = part.name.removeprefix("the ").lower().replace(" ", "_")
        yield Result(f"parts.{key}_bar", f"{capital(part.name)} [bar]", part.supported_bar)
    yield Result("rating.bar", "Rating of the whole [bar]", rating.bar)
    yield Result("rating.at_most_bar", "At most [bar]", rating.at_most_bar)
    yield Result("rating.look_up", "To be looked up", ", ".join(rating.look_up) or None)
    yield Result("proof.bar", "Proof pressure [bar]", _of(worked.proof, "proof_bar"))
    yield Result("flow.velocity_m_s", "Velocity [m/s]", _of(flow, "velocity_m_s"))
    for key, title, drop in (
        ("drop_bar", "Pressure drop [bar]", flow and flow.warm),
        ("cold_drop_bar", "Pressure drop, cold [bar]", flow and flow.cold),
    ):
        bars = drop.bars if drop else ()
        yield Result(f"flow.{key}_low", f"{title}, lower value", min(bars, default=None))
        yield Result(f"flow.{key}_high", f"{title}, higher value", max(bars, default=None))
    yield Result("making.die_mm", "Die [mm]", _of(worked.setting, "die_mm"))
    yield Result("making.over_mm", "Above the die [mm]", _of(worked.setting, "over_mm"))
    for side, judged in zip("ab", worked.judged, strict=True):
        said = f"{judged.result}" if judged else None
        yield Result(f"making.squeezed_{side}", f"Squeezed end {side.upper()}", said)


def _of(value: object, field: str) -> float | None:
    found: float | None = None if value is None else getattr(value, field)
    return found


def sheet_object(worked: Worked, found: Sequence[Finding], made_with: MadeWith) -> dict[str, Any]:
    """Return a sheet as plain values, ready for `json.dumps`; `entered` makes it anew.

    Args:
        worked: What follows from the sheet.
        found: Its findings.
        made_with: By what tables, rules and program can be traced.
    """
    worked_out: dict[str, Any] = {}
    for each in results(worked):
        part, _, field = each.path.partition(".")
        value = round(each.value, _DECIMALS) if isinstance(each.value, float) else each.value
        worked_out.setdefault(part, {})[field] = value
    return {
        "entered": dict(worked.sheet.entered),
        "missing": [entry.path for entry in still_missing(worked.sheet)],
        "conclusion": str(conclusion(worked, found)),
        "findings": [
            {
                "key": each.key, "grade": str(each.grade), "what": each.what, "why": each.why,
                "remedy": each.remedy, "source": each.source,
            }
            for each in found
        ],
        "worked_out": worked_out,
        "made_with": made_with._asdict(),
    }  # fmt: skip


def changes(
    before: Mapping[str, Any], after: Mapping[str, Any], worked: Worked
) -> tuple[Change, ...]:
    """Return what differs between two sheets: entries, then results, then findings.

    Args:
        before: One sheet as `sheet_object` gives it; what is not of that form counts as absent.
        after: The other.
        worked: Either of them: it has the names of all results.
    """
    titles = {f"entered.{path}": entry.title for path, entry in BY_PATH.items()}
    titles |= {f"worked_out.{each.path}": each.title for each in results(worked)}
    titles |= _MADE_WITH
    old, new = _flat(before), _flat(after)
    found = []
    for path in dict.fromkeys([*old, *new]):
        one, other = old.get(path, ""), new.get(path, "")
        if one != other:
            found.append(Change(titles.get(path, path.partition(".")[2]), one, other))
    return tuple(found)


def made_with_other(before: Mapping[str, Any], after: Mapping[str, Any]) -> bool:
    """Tell whether two sheets rest on other tables or rules; one that does not say counts so."""
    one, other = _mapping(before.get("made_with")), _mapping(after.get("made_with"))
    return any(one.get(part) != other.get(part) for part in ("ends", "hoses", "rules"))


def _flat(sheet: Mapping[str, Any]) -> dict[str, str]:
    flat: dict[str, str] = {}
    for path, text in _mapping(sheet.get("entered")).items():
        flat[f"entered.{path}"] = str(text)
    for part, fields in _mapping(sheet.get("worked_out")).items():
        for field, value in _mapping(fields).items():
            if value is not None:
                shown = f"{value:.6g}" if isinstance(value, float | int) else str(value)
                flat[f"worked_out.{part}.{field}"] = shown
    for field, value in _mapping(sheet.get("made_with")).items():
        flat[f"made_with.{field}"] = str(value)
    listed = sheet.get("findings")
    for each in listed if isinstance(listed, list) else []:
        said = _mapping(each)
        flat[f"findings.check {said.get('key')}"] = str(said.get("what"))
    return flat


def _mapping(value: object) -> Mapping[str, Any]:
    return value if isinstance(value, Mapping) else {}
