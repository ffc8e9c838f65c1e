"""The parts the drawing tests look at, as the shipped tables have them."""

from identify.drawing.bench import Look
from identify.drawing.ends import bench_view, half_section
from identify.drawing.outline import Sheet
from identify.knowledge.loading import load_knowledge
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.thread import Thread

CATALOGUE = load_knowledge().catalogue

GOLDEN_ENDS: dict[str, tuple[str, Feature | None]] = {
    "flare37-male": ("flare37:-8:male", None),
    "flare37-male-seat": ("flare37:-8:male", Feature.SEAT_ANGLE),
    "cone24-male": ("cone24_L:12L:male", None),
    "cone24-male-tube-bore": ("cone24_L:12L:male", Feature.TUBE_BORE),
    "cone24-o-ring-nose": ("cone24_L:12L:female-o-ring-nose", None),
    "bspp60-female": ("bspp60:G1/2:female", Feature.THREAD_ID),
    "orb-port": ("orb_un:-8:female", None),
    "captive-ring-male": ("port_metric_flat:M22x1.5:male", None),
    "face-seal-male": ("orfs:-8:male", None),
    "flange61": ("flange61:3/4-in:flange", None),
    "flange61-thickness": ("flange61:3/4-in:flange", Feature.FLANGE_HEAD_THICKNESS),
    "npt-male": ("npt:1/2-NPT:male", Feature.THREAD_OD),
    "banjo": ("banjo_metric:M14x1.5:none-eye", None),
    "staple": ("staple:DN-13:male", None),
    "washer": ("bonded_washer:G1/2:none-washer", None),
}


def part(name: str) -> tuple[EndConnection, Thread | None]:
    """Return an end and its thread by id."""
    end = CATALOGUE.by_id[name]
    return end, CATALOGUE.thread_of(end)


def sheet_of(name: str, ask: Feature | None = None) -> Sheet:
    """Return the drawing of an end by id."""
    return half_section(*part(name), ask)


def bench_of(name: str, look: Look = Look.BENCH, **more: float) -> Sheet:
    """Return the bench view of an end by id."""
    return bench_view(*part(name), look, **more)
