#!/usr/bin/env python3
"""Show that the reference figures carried in tests/threads/references are the packages' own.

The suite compares computed limits of size with published tables. Those tables come in three
packages that a test run should not need, so the figures are carried as facts in our own format.
This script fetches the packages, reads their own files and compares figure by figure.

    .ci/compare_references.py           compare; exit 1 if a figure differs or is missing
    .ci/compare_references.py --write   take the figures over from the packages

Needs apt-get and dpkg-deb (Debian), pip and the network; run as root if the package lists of apt
are stale. The packages: freecad-common (LGPL), bd_warehouse (Apache-2.0), screw_thread_lib (MIT).
"""

import csv
import io
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

CARRIED = Path(__file__).resolve().parent.parent / "tests/threads/references"
HEADER = ("designation", "limit", "value", "unit", "source")
Row = tuple[str, str, str, str, str]

# The packages name diameter and tpi only; the series follows from the standard's series table.
UNC = {
    "1/4": 20, "5/16": 18, "3/8": 16, "7/16": 14, "1/2": 13, "9/16": 12, "5/8": 11, "3/4": 10,
    "7/8": 9, "1": 8, "1 1/8": 7, "1 1/4": 7, "1 3/8": 6, "1 1/2": 6, "1 3/4": 5,
}  # fmt: skip
UNF = {
    "1/4": 28, "5/16": 24, "3/8": 24, "7/16": 20, "1/2": 20, "9/16": 18, "5/8": 18, "3/4": 16,
    "7/8": 14, "1": 12, "1 1/8": 12, "1 1/4": 12, "1 3/8": 12, "1 1/2": 12,
}  # fmt: skip
OTHER = {("9/16", 24): "UNEF", ("9/16", 14): "UNS", ("1", 14): "UNS"}


def series(size: str, tpi: int) -> str:
    """Return the series letters of a Unified size."""
    if UNC.get(size) == tpi:
        return "UNC"
    return "UNF" if UNF.get(size) == tpi else OTHER.get((size, tpi), "UN")


def mixed(size: float) -> str:
    """Return an inch size as the trade writes it; the packages round to four digits."""
    value = Fraction(round(size * 16), 16)
    whole, part = divmod(value, 1)
    return " ".join(str(piece) for piece in (whole, part) if piece)


def freecad(package: Path) -> Iterator[Row]:
    """Yield metric 6g and 6H (pitch 1 to 4 mm) and Unified 2A and 2B (from 1/4 in) limits."""
    pipe = subprocess.run(["dpkg-deb", "--fsys-tarfile", package], capture_output=True, check=True)
    tables = {}
    with tarfile.open(fileobj=io.BytesIO(pipe.stdout)) as archive:
        for member in archive:
            if "/Data/Threads/" in member.name and (file := archive.extractfile(member)):
                tables[Path(member.name).stem] = list(csv.DictReader(io.TextIOWrapper(file)))
    for table, gender, crest in (
        ("metric-external-6G", "external", "Major"),
        ("metric-internal-6H", "internal", "Minor"),
        ("imperial-external-2A", "external", "Major"),
        ("imperial-internal-2B", "internal", "Minor"),
    ):
        for row in tables[table]:
            if table.startswith("metric"):
                name, unit = row["name"].replace(" ", ""), "mm"
                if not 1 <= float(row["pitch"]) <= 4:
                    continue
            else:
                size, unit = float(row.get("dNominal") or row["dMajorMin"]), "in"
                if size < 0.25:
                    continue
                tpi = int(row["tpi"])
                name = f"{mixed(size)}-{tpi} {series(mixed(size), tpi)}"
            for diameter, column in (("crest", f"d{crest}"), ("pitch", "dPitch")):
                for end in ("Min", "Max"):
                    limit = f"{gender}_{diameter}_{end.lower()}"
                    yield name, limit, row[column + end], unit, f"freecad-common {table}"


def bd_warehouse(package: Path) -> Iterator[Row]:
    """Yield basic diameters and tolerances of G threads."""
    with zipfile.ZipFile(package) as wheel:
        text = wheel.read("bd_warehouse/data/iso_228_1.csv").decode()
    for row in csv.DictReader(io.StringIO(text)):
        for column in list(row)[2:]:
            yield f"G {row['size']}", column, row[column], "mm", "bd_warehouse iso_228_1"


def screw_thread_lib(package: Path) -> Iterator[Row]:
    """Yield limits of ASME B1.1-2019 from 1/4 in and of four metric threads, in inches."""
    sys.path.insert(0, str(package))
    from screw_thread_lib.data import ASME_M_6g6H_dict, ASME_UN_2A2B_dict

    columns = {
        "external_crest_min": "dmin",
        "external_crest_max": "dmax",
        "external_pitch_min": "d2min",
        "external_pitch_max": "d2max",
        "internal_crest_min": "D1min",
        "internal_crest_max": "D1max",
        "internal_pitch_min": "D2min",
        "internal_pitch_max": "D2max",
    }
    for key, entry in (*ASME_UN_2A2B_dict.items(), *ASME_M_6g6H_dict.items()):
        if entry["dbsc"] < 0.25:
            continue
        size, _, pitch = key.partition("-")
        metric = key.startswith("M")
        name = f"{size}x{pitch}" if metric else f"{size}-{pitch} {entry['series']}"
        table = "ASME_M_6g6H_dict" if metric else "ASME_UN_2A2B_dict"
        for limit, column in columns.items():
            yield name, limit, str(entry[column]), "in", f"screw_thread_lib {table}"


def fetch(folder: Path) -> dict[str, Path]:
    """Download the three packages into `folder`."""
    apt = ["apt-get", "-q", "download", "freecad-common"]
    if subprocess.run(apt, cwd=folder, capture_output=True).returncode:
        subprocess.run(["apt-get", "-q", "update"], check=True, stdout=subprocess.DEVNULL)
        subprocess.run(apt, cwd=folder, check=True, stdout=subprocess.DEVNULL)
    pins = ("bd_warehouse==0.4.0", "screw_thread_lib==0.0.6")
    pip = [sys.executable, "-m", "pip", "-q", "download", "--no-deps", "-d", folder, *pins]
    subprocess.run(pip, check=True)
    found = {path.name.split("-")[0].split("_0.")[0]: path for path in folder.iterdir()}
    return {"freecad_common": found["freecad"], **found}


def main(arguments: list[str]) -> int:
    """Compare or write; return the exit status."""
    readers = {
        "freecad_common": freecad,
        "bd_warehouse": bd_warehouse,
        "screw_thread_lib": screw_thread_lib,
    }
    worst = 0
    with tempfile.TemporaryDirectory() as folder:
        packages = fetch(Path(folder))
        for name, reader in readers.items():
            rows = list(reader(packages[name]))
            path = CARRIED / f"{name}.csv"
            if "--write" in arguments:
                with path.open("w", newline="") as file:
                    csv.writer(file, lineterminator="\n").writerows([HEADER, *rows])
            with path.open(newline="") as file:
                carried = [tuple(row) for row in csv.reader(file)][1:]
            differing = set(rows) ^ set(carried)
            print(
                f"{name}: package file {packages[name].name}, {len(rows)} figures there, "
                f"{len(carried)} carried, {len(differing)} differing"
            )
            for row in sorted(differing):
                print("  only", "carried" if row in carried else "in the package:", *row)
            worst |= bool(differing) or not rows
    return int(worst)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
