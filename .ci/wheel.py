"""Build wheel and sdist, install each in a fresh environment, run it from another folder."""

import os
import subprocess
import sys
import tempfile
import venv
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
SAMPLE = ["gender=male", "thread_od=20.9 mm", "pitch=14 tpi", "seat_shape=concave"]


def shipped(folder: str) -> set[tuple[str, bytes]]:
    """Return name and content of every YAML file of a data folder in the checkout."""
    root = ROOT / folder
    return {(f"{folder}/{p.relative_to(root)}", p.read_bytes()) for p in root.rglob("*.yaml")}


def call(*words: object, cwd: Path) -> str:
    """Run a command, return what it printed; a failure shows its output and stops."""
    done = subprocess.run([str(w) for w in words], cwd=cwd, capture_output=True, text=True)
    if done.returncode:
        sys.exit(f"{' '.join(map(str, words))}\n{done.stdout}{done.stderr}")
    return done.stdout


def try_out(package: Path, scratch: Path) -> None:
    """Install one package apart and use it where no checkout is near."""
    home = scratch / f"env-{package.suffix.lstrip('.')}"
    venv.create(home, with_pip=True)
    bin_dir = home / ("Scripts" if sys.platform == "win32" else "bin")
    call(bin_dir / "python", "-m", "pip", "install", "-q", package, cwd=scratch)
    first = (
        "import sys; from identify.entry import main; "
        f"main(['rank', *{SAMPLE!r}]); sys.exit('yaml' in sys.modules)"
    )
    home_cache = {**os.environ, "XDG_CACHE_HOME": str(home / "cache")}
    start = [bin_dir / "python", "-c", first]
    if subprocess.run(start, cwd=scratch, env=home_cache, stdout=subprocess.DEVNULL).returncode:
        sys.exit(f"{package.name}: the first start reads the tables, which lie there compiled")
    for words in (["tables"], ["tables", "check"], ["rank", *SAMPLE], ["rank", "--json", *SAMPLE]):
        out = call(bin_dir / "whichend", *words, cwd=scratch)
        if not out.strip():
            sys.exit(f"{package.name}: whichend {words[0]} printed nothing")
    print(f"{package.name}: works from another folder")


def main() -> None:
    """Build, compare the data files byte for byte, try both packages."""
    with tempfile.TemporaryDirectory() as name:
        scratch = Path(name)
        call(sys.executable, "-m", "build", "--outdir", scratch / "dist", ROOT, cwd=scratch)
        wheel = next((scratch / "dist").glob("*.whl"))
        with zipfile.ZipFile(wheel) as archive:
            packed = {
                (entry.removeprefix("identify/_data/"), archive.read(entry))
                for entry in archive.namelist()
                if entry.startswith("identify/_data/") and entry.endswith(".yaml")
            }
        wanted = shipped("rules") | shipped("thread_tables")
        if packed != wanted:
            sys.exit(f"wheel and checkout differ: {sorted(n for n, _ in packed ^ wanted)}")
        print(f"{wheel.name}: {len(packed)} data files, the same as in the checkout")
        try_out(wheel, scratch)
        try_out(next((scratch / "dist").glob("*.tar.gz")), scratch)


if __name__ == "__main__":
    main()
