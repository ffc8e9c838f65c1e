"""Flow in the hose of a sheet: velocity, and the pressure drop warm and cold."""

from identify.assembly import Flow, pressure_drop, usual_velocity, velocity
from identify.assembly.flow import Drop
from identify.errors import AssemblyError
from identify.frozen import dataclass
from identify.model.assembly import AssemblyRules, VelocityRange
from identify.model.hose import Hose
from identify.model.sheet import HoseSheet


@dataclass(frozen=True, slots=True)
class WorkedFlow:
    """Velocity [m/s] in the narrowest bore [mm] and what is usual; drops over the hose.

    `beside` tells where the velocity lies: below -1, in 0, above 1 what is usual. `narrowest`
    names the part. Drops are None where viscosity, density or the cut length is not known; `note`
    says why one that is wanted cannot be had.
    """

    bore_mm: float
    narrowest: str
    velocity_m_s: float
    usual: VelocityRange | None
    beside: int
    warm: Drop | None
    cold: Drop | None
    note: str = ""


def worked_flow(
    sheet: HoseSheet, hose: Hose | None, cut_mm: float | None, rules: AssemblyRules
) -> WorkedFlow | None:
    """Return the flow in a hose, None where no flow or no bore is known.

    Raises:
        AssemblyError: The flow is none.
    """
    use = sheet.use
    bores = [(sheet.a.bore, "end A"), (sheet.b.bore, "end B")]
    if hose:
        bores.append((hose.nominal_mm, "the hose"))
    known = [(bore, name) for bore, name in bores if bore]
    if use.flow is None or not known:
        return None
    bore, narrowest = min(known)
    speed = velocity(use.flow, bore)
    usual, beside = usual_velocity(rules, use.line, speed) if use.line else (None, 0)
    hose_bore = hose.nominal_mm if hose else bore

    note = ""
    drops: list[Drop | None] = []
    for viscosity in (use.viscosity, use.cold_viscosity):
        drop = None
        if viscosity is not None and use.density is not None and cut_mm is not None:
            try:
                drop = pressure_drop(
                    Flow(use.flow, hose_bore, cut_mm / 1000, viscosity, use.density)
                )
            except AssemblyError as error:
                note = str(error)
        drops.append(drop)
    return WorkedFlow(bore, narrowest, speed, usual, beside, drops[0], drops[1], note)
