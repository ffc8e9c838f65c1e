"""Shipped YAML is found in a checkout, in an installed wheel and in a zip."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

import identify
from identify.errors import TableError
from identify.knowledge.table_files import data_dir

ROOT = Path(__file__).parents[2]


def lay_out(root: Path, *files: str) -> None:
    for file in files:
        path = root / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(file, encoding="utf-8")


def found(root: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.setattr(identify, "__path__", [str(root / "identify")])
    return data_dir("rules").joinpath("a.yaml").read_text(encoding="utf-8")


def test_wheel_comes_before_a_folder_that_happens_to_lie_beside(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay_out(tmp_path, "identify/_data/rules/a.yaml", "rules/a.yaml", "pyproject.toml")
    assert found(tmp_path, monkeypatch) == "identify/_data/rules/a.yaml"


def test_checkout_is_known_by_its_pyproject(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay_out(tmp_path, "identify/errors.py", "rules/a.yaml")
    with pytest.raises(TableError, match=r"rules/ is missing from this installation; install"):
        found(tmp_path, monkeypatch)
    lay_out(tmp_path, "pyproject.toml")
    assert found(tmp_path, monkeypatch) == "rules/a.yaml"


def test_tables_load_from_a_zip_and_from_its_cache(tmp_path: Path) -> None:
    archive = tmp_path / "whichend.zip"
    with zipfile.ZipFile(archive, "w") as out:
        for file in (ROOT / "identify").rglob("*.py"):
            out.write(file, file.relative_to(ROOT))
        for name in ("rules", "thread_tables"):
            for file in (ROOT / name).rglob("*.yaml"):
                out.write(file, Path("identify/_data") / file.relative_to(ROOT))
    script = (
        "import sys; from identify.knowledge.loading import load_knowledge; "
        "print(len(load_knowledge().catalogue.ends) > 0, 'yaml' in sys.modules)"
    )
    homes = dict.fromkeys(("HOME", "USERPROFILE", "LOCALAPPDATA", "XDG_CACHE_HOME"), str(tmp_path))
    env = {"PYTHONPATH": str(archive), **homes}
    runs = [
        subprocess.run(
            [sys.executable, "-c", script],
            env=env,
            cwd=tmp_path,
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for _ in range(2)
    ]
    assert runs == ["True True\n", "True False\n"]
