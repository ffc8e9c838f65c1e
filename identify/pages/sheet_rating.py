"""What the hose of a sheet stands, part by part, and what it is asked to stand."""

from collections.abc import Iterator

from identify.assembly.flow import Drop
from identify.model.hose import LOOK_UP
from identify.pages.blocks import Block, Table, Tone, labelled
from identify.pages.sheet_making import BLANK_FIELD
from identify.sheets.finding import capital
from identify.sheets.working import Worked


def rating_blocks(worked: Worked) -> Iterator[Block | Table]:
    """Yield pressures with who says so, proof, impulse, use, bend and flow."""
    yield from _pressure(worked)
    yield from _use(worked)
    yield from _flow(worked)


def _pressure(worked: Worked) -> Iterator[Block | Table]:
    yield Block("What it stands", Tone.HEAD)
    rows = []
    for part in worked.parts:
        bar = part.supported_bar
        known = f"{bar:.4g} bar" if bar is not None else LOOK_UP
        basis = f" ({part.basis})" if part.basis else ""
        says = f"{part.source}{basis}" if bar is not None else ""
        rows.append((capital(part.name), known, says))
    yield Table(("part", "working pressure", "says"), tuple(rows))
    yield labelled("Whole", worked.rating.sentence)
    if worked.proof:
        proof = worked.proof
        yield labelled(
            "Proof", f"{proof.proof_bar:.4g} bar for {proof.low_s:g} to {proof.high_s:g} seconds, "
            f"by the rating of the whole (ISO 6605). Burst {proof.burst_bar:.4g} bar is a type "
            "test, for no hose that is to be used.",
        )  # fmt: skip
    else:
        yield labelled("Proof", f"{BLANK_FIELD} (no rating, no proof pressure)")
    if worked.hose:
        service = worked.hose.kind.service
        if service.impulse_cycles:
            at = f" at {service.impulse_c:g} C" if service.impulse_c is not None else ""
            yield labelled(
                "Impulse", f"{service.impulse_cycles} cycles to {service.impulse_percent:g} % of "
                f"the working pressure{at} is the type test (figure: {service.impulse_basis}); "
                "more, or higher, shortens its life.",
            )  # fmt: skip


def _use(worked: Worked) -> Iterator[Block]:
    use = worked.sheet.use
    span = use.temperature
    bar = f"{use.pressure:g} bar" if use.pressure is not None else BLANK_FIELD
    peaks = f"{use.peaks:g} bar" if use.peaks is not None else BLANK_FIELD
    degrees = f"{span.low:g} to {span.high:g} C" if span else BLANK_FIELD
    yield labelled("Use", f"{bar}, peaks {peaks}; {use.medium or BLANK_FIELD}, {degrees}")
    yield labelled("Routing", use.routing or BLANK_FIELD)
    if use.bend_radius is not None and worked.hose:
        least = worked.sheet.hose.bend if worked.sheet.hose.data else None
        least = least or worked.hose.bend_radius_mm
        yield labelled(
            "Bend", f"{use.bend_radius:g} mm to the inside; the hose bends to "
            f"{f'{least:g} mm' if least else LOOK_UP} at least",
        )  # fmt: skip


def _flow(worked: Worked) -> Iterator[Block]:
    flow = worked.flow
    if flow is None:
        return
    yield labelled(
        "Flow", f"{flow.velocity_m_s:.1f} m/s in {flow.narrowest} ({flow.bore_mm:g} mm), the "
        "narrowest bore that is known",
    )  # fmt: skip
    if flow.usual:
        where = {-1: "Below", 0: "Within", 1: "Above"}[flow.beside]
        yield Block(
            f"{where} what is usual in a {flow.usual.line} line, {flow.usual.low_m_s:g} to "
            f"{flow.usual.high_m_s:g} m/s: guidance, no standard gives a figure "
            f"({flow.usual.says.basis}).", mark="! " if flow.beside > 0 else "",
        )  # fmt: skip
    if flow.note:
        yield Block(flow.note)
    for name, drop in (("Drop", flow.warm), ("Cold start", flow.cold)):
        if drop:
            yield labelled(name, _drop(drop))


def _drop(drop: Drop) -> str:
    values = " or ".join(f"{bar:.2g}" for bar in drop.bars)
    if drop.laminar is None:
        how = "near the turn to turbulence: smooth or turbulent, nobody can tell which"
    else:
        how = "smooth flow" if drop.laminar else "turbulent"
    return f"{values} bar over the hose, without its ends ({how}; Reynolds {drop.reynolds:.0f})"
