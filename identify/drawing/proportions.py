"""Sizes a picture needs: from the tables where they give a figure, else a stated proportion.

Every proportion here is this project's choice for a readable picture and no dimension to make or
buy by; sheets that use one say so.
"""

import math

from identify.frozen import dataclass
from identify.light import re
from identify.model.connection import Across, EndConnection
from identify.model.feature import Feature
from identify.model.thread import Thread


@dataclass(frozen=True, slots=True)
class Sizes:
    """Radii and lengths of one end [mm]."""

    crest_r: float
    root_r: float
    pitch: float
    depth: float
    slope: float  # growth of the crest radius per length
    thread_length: float
    bore_r: float
    corner_r: float  # half the hexagon across corners
    flats_r: float  # half the hexagon across flats
    tail_r: float

    @property
    def unit(self) -> float:
        """Diameter that lengths without a figure are proportional to."""
        return 2 * self.crest_r


def sizes(end: EndConnection, thread: Thread | None, part: Across) -> Sizes:
    """Return the sizes of a threaded end; `part` says which hexagon carries it."""
    if thread is None:
        crest_r = _plain_diameter(end) / 2
        pitch, depth, root_r, slope, length = 0.0, 0.0, crest_r, 0.0, crest_r
    else:
        pitch = thread.pitch_mm
        crest_r = (thread.small_end_mm or thread.major_mm) / 2
        depth = thread.height_mm
        root_r = crest_r - depth
        slope = thread.taper / 2
        wanted = thread.useful_length_mm or max(1.1 * crest_r, 6 * pitch)
        length = max(4, round(wanted / pitch)) * pitch
    flats = next((h.mm for h in end.hexagons if h.part is part), 0.0)
    if part is Across.NUT:
        flats = max(flats, 2.3 * crest_r)
    flats = flats or 2.4 * (crest_r + slope * length)
    tube = end.sizes.get(Feature.TUBE_OD)
    bore_r = min(0.39 * tube, 0.7 * root_r) if tube else 0.5 * root_r
    return Sizes(
        crest_r,
        root_r,
        pitch,
        depth,
        slope,
        length,
        bore_r,
        flats / math.sqrt(3),
        flats / 2,
        max(bore_r * 1.3, 0.75 * crest_r),
    )


def ring_section_mm(end: EndConnection) -> tuple[float, float] | None:
    """Return inside diameter and section of the O-ring [mm], read from its designation."""
    if not end.o_ring_size:
        return None
    found = re.match(r"\s*([\d.]+)\s*x\s*([\d.]+)", end.o_ring_size)
    return (float(found[1]), float(found[2])) if found else None


def _plain_diameter(end: EndConnection) -> float:
    """Return the diameter of an end without a thread [mm]."""
    return (
        end.sizes.get(Feature.PLUG_OD)
        or end.sizes.get(Feature.EYE_BORE)
        or (end.hose_dn or 10.0) * 1.6
    )
