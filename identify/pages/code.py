"""A reference as a code that a scanner reads; the library is imported only here, when asked for."""

from identify.jobs.reference import scanned
from identify.pages.blocks import Picture

QUIET = 4  # modules round the code that stay white (ISO/IEC 18004)
MODULES = 21 + 2 * QUIET  # of version 1, which holds every reference; from side to side


def code_of(reference: str, side_mm: float) -> Picture:
    """Return the code of a reference with its white border, `side_mm` from side to side.

    A quarter of it may be lost and it is still read (level Q).
    """
    import segno

    code = segno.make_qr(scanned(reference), version=1, error="q")
    path = ""
    for y, row in enumerate(code.matrix_iter(border=QUIET)):
        start = None
        for x, dark in enumerate([*row, 0]):
            if dark and start is None:
                start = x
            elif not dark and start is not None:
                path += f"M{start} {y}h{x - start}v1h{start - x}z"
                start = None
    return Picture(
        f'<svg xmlns="http://www.w3.org/2000/svg" class="code" width="{side_mm:g}mm" '
        f'height="{side_mm:g}mm" viewBox="0 0 {MODULES} {MODULES}" role="img" '
        f'shape-rendering="crispEdges">\n<title>{scanned(reference)}</title>\n'
        f'<rect width="{MODULES}" height="{MODULES}" fill="#fff"/>\n'
        f'<path fill="#000" d="{path}"/>\n</svg>'
    )
