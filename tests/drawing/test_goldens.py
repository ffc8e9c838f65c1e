"""Pictures compared line by line with those on file, which were looked at when they were filed.

After a wanted change run `python tests/drawing/test_goldens.py`, look at the files, commit them.
"""

from pathlib import Path

import pytest

from identify.drawing.bench import Look
from identify.drawing.ends import bench_view, named_section
from identify.drawing.render import render
from identify.drawing.seat_detail import seat_detail
from tests.drawing.parts import GOLDEN_ENDS, part, sheet_of

FOLDER = Path(__file__).parent / "goldens"
SIZES = ((45, 20), (75, 36))
PAIRS = {
    "seats-37-45": ("flare37:-8:male", "flare45:-8:male"),
    "flanges-61-62": ("flange61:3/4-in:flange", "flange62:3/4-in:flange"),
    "threads-npt-r": ("npt:1/2-NPT:male", "r_taper:R1/2:male"),
}
STYLES = {"flare37-male": ("blocks", "ascii"), "bench-flare37": ("blocks", "ascii")}
BENCHES = {
    "bench-flare37": "flare37:-8:male",
    "bench-npt": "npt:1/2-NPT:male",
    "bench-stud": "port_g_flat:G1/2:male",
    "bench-o-ring-nose": "cone24_L:12L:female-o-ring-nose",
    "bench-face-seal": "orfs:-8:male",
    "bench-port": "orb_un:-8:female",
    "bench-flange61": "flange61:3/4-in:flange",
    "bench-square-flange": "flange_jis_square:25:flange-hexagon-bolt",
    "bench-coupling-socket": "qc7241a:12.5:female",
    "bench-test-point": "testpoint:M16x2:male",
}
NAMED = {
    "named-flare37": "flare37:-8:male",
    "named-cone24": "cone24_L:12L:male",
    "named-o-ring-nose": "cone24_L:12L:female-o-ring-nose",
    "named-face-seal": "orfs:-8:male",
    "named-port": "orb_un:-8:female",
}


def pictures() -> dict[str, str]:
    """Return every golden picture under its file name."""
    out = {}
    sheets = {name: sheet_of(*what) for name, what in GOLDEN_ENDS.items()}
    sheets |= {name: seat_detail(*part(a), *part(b)) for name, (a, b) in PAIRS.items()}
    sheets |= {name: bench_view(*part(end), Look.BENCH) for name, end in BENCHES.items()}
    sheets |= {name: named_section(*part(end)) for name, end in NAMED.items()}
    for name, sheet in sheets.items():
        for columns, rows in SIZES:
            for style in ("braille", *STYLES.get(name, ())):
                lines = render(sheet, columns, rows, style)
                out[f"{name}-{columns}x{rows}-{style}.txt"] = "\n".join(lines) + "\n"
    return out


PICTURES = pictures()


@pytest.mark.parametrize("name", PICTURES)
def test_the_picture_is_the_one_on_file(name: str) -> None:
    assert PICTURES[name] == (FOLDER / name).read_text(encoding="utf-8")


def test_every_picture_on_file_is_still_drawn() -> None:
    assert {path.name for path in FOLDER.iterdir()} == set(PICTURES)


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for old in FOLDER.iterdir():
        old.unlink()
    for file, text in PICTURES.items():
        (FOLDER / file).write_text(text, encoding="utf-8")
