"""American pipe threads, 60 deg: NPT, NPTF (taper 1:16) and NPSM (parallel).

Source: ASME B1.20.1 as reprinted in an engineering handbook: formulas for pitch diameters and
lengths, printed gauge length L1, printed truncations, printed limits of NPSM. NPTF (ASME B1.20.3)
has the same taper, pitch, pitch diameters and lengths; its crest truncations are from memory.
"""

from identify.model.source import Provenance
from identify.model.thread import Limits, Thread
from identify.threads.profile import MM_PER_INCH, inches, sharp_height

TAPER = 1 / 16

# Crest truncation [in], least and greatest, by threads per inch. NPT's least is 0.033 p.
_NPT_TRUNCATION = {27: 0.0036, 18: 0.0049, 14: 0.0056, 11.5: 0.0063, 8: 0.0078}
_NPTF_TRUNCATION = {
    27: (0.0017, 0.0035),
    18: (0.0026, 0.0043),
    14: (0.0026, 0.0043),
    11.5: (0.0035, 0.0052),
}


def small_end_pitch_diameter(pipe_od_in: float, tpi: float) -> float:
    """Return E0, the pitch diameter at the small end [in]."""
    return pipe_od_in - (0.05 * pipe_od_in + 1.1) / tpi


def gauge_pitch_diameter(pipe_od_in: float, tpi: float, gauge_length_in: float) -> float:
    """Return E1, the pitch diameter at the hand-tight plane L1 [in]."""
    return small_end_pitch_diameter(pipe_od_in, tpi) + gauge_length_in * TAPER


def effective_length(pipe_od_in: float, tpi: float) -> float:
    """Return L2, the length of effective thread [in]."""
    return (0.8 * pipe_od_in + 6.8) / tpi


def full_crest_length(pipe_od_in: float, tpi: float) -> float:
    """Return L5 [in]: the last two of L2's threads have no full crest."""
    return effective_length(pipe_od_in, tpi) - 2 / tpi


def truncations(tpi: float, system: str) -> tuple[float, float]:
    """Return least and greatest crest truncation [in].

    Raises:
        ValueError: The system has no such pitch.
    """
    if system == "NPT" and tpi in _NPT_TRUNCATION:
        return 0.033 / tpi, _NPT_TRUNCATION[tpi]
    if system == "NPTF" and tpi in _NPTF_TRUNCATION:
        return _NPTF_TRUNCATION[tpi]
    raise ValueError(f"{system} has no thread of {tpi:g} tpi")


def taper_thread(
    designation: str,
    system: str,
    pipe_od_in: float,
    tpi: float,
    gauge_length_in: float,
    provenance: Provenance,
) -> Thread:
    """Return an NPT or NPTF thread, male and female.

    The male's crests run from the small end to the pipe surface at L5; one turn either way is
    allowed at the gauge and the crests may be truncated more. The female is taken at the mouth,
    where its pitch diameter is E1.

    Args:
        designation: "1/4-18 NPT".
        system: "NPT" or "NPTF".
        pipe_od_in: Outside diameter of the pipe [in].
        tpi: Threads per inch.
        gauge_length_in: Hand-tight length L1 [in].
        provenance: Who says so.
    """
    pitch = 1 / tpi
    least, greatest = truncations(tpi, system)
    turn = pitch * TAPER
    sharp = sharp_height(pitch, 60)
    e0 = small_end_pitch_diameter(pipe_od_in, tpi)
    e1 = gauge_pitch_diameter(pipe_od_in, tpi, gauge_length_in)
    length = full_crest_length(pipe_od_in, tpi)
    e5 = e0 + length * TAPER
    highest, lowest = sharp - 2 * least, sharp - 2 * greatest
    basic = 0.8 * pitch  # full form: sharp triangle less the least truncation, both sides
    return Thread(
        designation=designation,
        system=system,
        pitch_mm=MM_PER_INCH / tpi,
        tpi=tpi,
        flank_angle_deg=60.0,
        taper=TAPER,
        major_mm=(e1 + basic) * MM_PER_INCH,
        pitch_diameter_mm=e1 * MM_PER_INCH,
        minor_mm=(e1 - basic) * MM_PER_INCH,
        external=Limits(
            crest=inches(e0 + lowest - turn, e5 + highest + turn),
            pitch=inches(e1 - turn, e1 + turn),
        ),
        internal=Limits(
            crest=inches(e1 - highest - turn, e1 - lowest + turn),
            pitch=inches(e1 - turn, e1 + turn),
        ),
        provenance=provenance,
        small_end_mm=(e0 + basic) * MM_PER_INCH,
        large_end_mm=(e5 + basic) * MM_PER_INCH,
        gauge_length_mm=gauge_length_in * MM_PER_INCH,
        useful_length_mm=length * MM_PER_INCH,
    )


def parallel_basic(pitch_diameter_mm: float, tpi: float) -> tuple[float, float]:
    """Return basic major and minor diameter of NPSM [mm].

    Unified form on the NPT pitch diameter: 0.649519 p above, 0.433013 p below. A handbook footnote
    gives 0.666025 p above; the printed limits do not follow it.
    """
    height = sharp_height(MM_PER_INCH / tpi, 60)
    return pitch_diameter_mm + 0.75 * height, pitch_diameter_mm - 0.5 * height


def parallel_thread(
    designation: str,
    pitch_diameter_mm: float,
    tpi: float,
    limits: tuple[Limits, Limits],
    provenance: Provenance,
) -> Thread:
    """Return an NPSM thread; its limits (male, female) are printed, not computed."""
    major, minor = parallel_basic(pitch_diameter_mm, tpi)
    return Thread(
        designation=designation,
        system="NPSM",
        pitch_mm=MM_PER_INCH / tpi,
        tpi=tpi,
        flank_angle_deg=60.0,
        taper=0.0,
        major_mm=major,
        pitch_diameter_mm=pitch_diameter_mm,
        minor_mm=minor,
        external=limits[0],
        internal=limits[1],
        provenance=provenance,
    )
