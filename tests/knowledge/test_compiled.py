"""The cache of compiled tables: used when current, made anew when not, never in the way."""

import json
import os
import subprocess
import sys
import zlib
from pathlib import Path

import pytest

from identify.errors import TableError
from identify.knowledge import compiled
from identify.knowledge.compiled import cache_dir, load_catalogue, load_section
from identify.model.source import Source

BAD = Path(__file__).parent.parent / "bad_tables"
ROOT = Path(__file__).parents[2]
SMALL = BAD / "base"
TABLE = """schema: source_table/1
sources:
  own: {title: "TITLE", kind: memory}
"""


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give the test a cache folder of its own on any system."""
    for name in ("HOME", "USERPROFILE", "LOCALAPPDATA", "XDG_CACHE_HOME"):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a person's own folder of tables, beside shipped tables of a few lines."""
    monkeypatch.setattr(compiled, "data_dir", lambda name: SMALL)
    path = tmp_path / "own"
    path.mkdir()
    write(path, "first")
    return path


def write(folder: Path, title: str) -> None:
    (folder / "sources.yaml").write_text(TABLE.replace("TITLE", title), encoding="utf-8")


def title(folder: Path) -> str:
    return load_catalogue(folder).sources["own"].title


def cache_file() -> Path:
    (path,) = cache_dir().glob("catalogue-*.json")
    return path


def forbid_reading(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let any reading of YAML fail."""
    monkeypatch.setitem(sys.modules, "identify.knowledge.build", None)


def test_second_load_reads_no_yaml_and_is_equal(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = load_catalogue(folder)
    forbid_reading(monkeypatch)
    assert load_catalogue(folder) == first


def test_loading_from_the_cache_imports_no_yaml_pint_or_thread_formulas() -> None:
    load_catalogue()
    script = (
        "import sys; from identify.knowledge.compiled import load_catalogue; load_catalogue(); "
        "print([name for name in sys.modules if name.split('.')[0] in "
        "('yaml', 'pint', 'platformdirs', 'textual', 'rich') or name.startswith('identify.threads')"
        " or name == 'importlib.resources'])"
    )
    run = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert run.stdout.strip() == "[]"


def test_changed_table_is_read_anew(folder: Path) -> None:
    assert title(folder) == "first"
    write(folder, "other")
    assert title(folder) == "other"


def test_change_of_equal_size_and_time_is_seen(folder: Path) -> None:
    assert title(folder) == "first"
    before = (folder / "sources.yaml").stat()
    write(folder, "fired")
    os.utime(folder / "sources.yaml", ns=(before.st_atime_ns, before.st_mtime_ns))
    assert title(folder) == "fired"


def test_table_added_and_taken_away_is_seen(folder: Path) -> None:
    families = len(load_catalogue(folder).families)
    (folder / "ends").mkdir()
    text = (BAD / "shares.yaml").read_text(encoding="utf-8")
    (folder / "ends/demo.yaml").write_text(text.replace("share: 0.3", "share: 0.4"), "utf-8")
    assert len(load_catalogue(folder).families) == families + 1
    (folder / "ends/demo.yaml").unlink()
    assert len(load_catalogue(folder).families) == families


def test_touched_file_of_equal_content_needs_no_reading(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    load_catalogue(folder)
    before = cache_file().read_bytes()
    os.utime(folder / "sources.yaml", ns=(1, 1))
    forbid_reading(monkeypatch)
    assert title(folder) == "first"
    after = cache_file().read_bytes()
    assert after.partition(b"\n")[0] != before.partition(b"\n")[0], "new signature is kept"
    assert after.partition(b"\n")[2] == before.partition(b"\n")[2]


def cut(data: bytes) -> bytes:
    return data[: len(data) // 2]


def flip(data: bytes) -> bytes:
    at = data.index(b'"first"') + 1
    return data[:at] + b"F" + data[at + 1 :]


def foreign_format(data: bytes) -> bytes:
    return data.replace(b"whichend-cache/", b"whichend-cache/9", 1)


def other_shape(data: bytes) -> bytes:
    first, _, payload = data.partition(b"\n")
    return json.dumps({**json.loads(first), "shape": 0}).encode() + b"\n" + payload


def whole_but_senseless(data: bytes) -> bytes:
    """Keep a right checksum over a payload that is no catalogue."""
    import zlib

    payload = b'[[[0,"x"]],0]'
    header = {**json.loads(data.partition(b"\n")[0]), "crc": zlib.crc32(payload)}
    return json.dumps(header).encode() + b"\n" + payload


@pytest.mark.parametrize(
    "damage",
    [
        cut,
        flip,
        foreign_format,
        other_shape,
        whole_but_senseless,
        lambda data: b"",
        lambda data: b"\x00\xff" * 500,
        lambda data: b"[]\n[]",
        lambda data: b"[" * 200_000,
        lambda data: data.partition(b"\n")[0],
    ],
)
def test_damaged_cache_is_made_anew(folder: Path, damage: object) -> None:
    first = load_catalogue(folder)
    whole = cache_file().read_bytes()
    cache_file().write_bytes(damage(whole))  # type: ignore[operator]
    assert load_catalogue(folder) == first
    assert cache_file().read_bytes().partition(b"\n")[2] == whole.partition(b"\n")[2]


def test_cache_file_that_is_a_folder_does_no_harm(folder: Path) -> None:
    load_catalogue(folder)
    path = cache_file()
    path.unlink()
    path.mkdir()
    assert title(folder) == "first"
    assert [item.name for item in cache_dir().iterdir()] == [path.name], "nothing is left lying"


def test_folder_that_cannot_be_made_does_no_harm(folder: Path, home: Path) -> None:
    home.write_text("a file where the cache folder should be")
    assert title(folder) == "first"


def test_disk_that_takes_no_byte_does_no_harm(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(number: int, mode: str) -> None:
        os.close(number)
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(compiled, "open", full, raising=False)
    assert title(folder) == "first"
    assert list(cache_dir().iterdir()) == []


def test_writers_at_the_same_time_leave_one_whole_cache(monkeypatch: pytest.MonkeyPatch) -> None:
    script = (
        "from identify.knowledge.compiled import load_catalogue; print(len(load_catalogue().ends))"
    )
    command = [sys.executable, "-c", script]
    runs = [
        subprocess.Popen(
            command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
        )
        for _ in range(4)
    ]
    results = [run.communicate() for run in runs]
    assert {out for out, _ in results} == {f"{len(load_catalogue().ends)}\n"}
    assert {err for _, err in results} == {""}
    forbid_reading(monkeypatch)
    load_catalogue()
    assert [path.suffix for path in cache_dir().iterdir()] == [".json"]


def test_faulty_tables_are_refused_even_with_an_old_cache(folder: Path) -> None:
    load_catalogue(folder)
    (folder / "sources.yaml").write_text("schema: source_table/1\nsources: {}\n", "utf-8")
    with pytest.raises(TableError, match=r"sources\.yaml:2: .*lists no source"):
        load_catalogue(folder)


def test_missing_folder_is_named(tmp_path: Path) -> None:
    with pytest.raises(TableError, match=r"absent: there is no such folder of tables"):
        load_catalogue(tmp_path / "absent")


def test_two_folders_do_not_share_a_cache(folder: Path, tmp_path: Path) -> None:
    second = tmp_path / "second"
    second.mkdir()
    write(second, "second")
    assert (title(folder), title(second), title(folder)) == ("first", "second", "first")
    assert len(list(cache_dir().glob("catalogue-*.json"))) == 2


def test_other_sections_are_kept_beside_the_catalogue() -> None:
    built: list[str] = []

    def numbers() -> dict[str, list[float]]:
        built.append("numbers")
        return {"density": [0.1, 0.2]}

    def source() -> Source:
        built.append("source")
        return Source("a", "b", "memory")

    for _ in range(2):
        assert load_section("numbers", None, numbers) == {"density": [0.1, 0.2]}
        assert load_section("source", Source, source) == Source("a", "b", "memory")
    assert built == ["numbers", "source"]


def test_relative_cache_home_is_ignored_as_its_standard_says(
    monkeypatch: pytest.MonkeyPatch, home: Path
) -> None:
    """Source: XDG Base Directory Specification, "All paths must be absolute … ignore it"."""
    monkeypatch.setattr(compiled.sys, "platform", "linux")
    monkeypatch.setenv("XDG_CACHE_HOME", "relative")
    assert cache_dir() == home / ".cache/whichend"
    monkeypatch.setenv("XDG_CACHE_HOME", "/somewhere")
    assert cache_dir() == Path("/somewhere/whichend")


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="such modes are of POSIX")
@pytest.mark.parametrize("mode", [0o660, 0o606, 0o666])
def test_a_cache_that_others_could_have_written_is_made_anew(folder: Path, mode: int) -> None:
    title(folder)
    path = cache_file()
    path.write_bytes(path.read_bytes().replace(b"first", b"wrong"))
    header, _, payload = path.read_bytes().partition(b"\n")
    sound = json.dumps({**json.loads(header), "crc": zlib.crc32(payload)}).encode()
    path.write_bytes(sound + b"\n" + payload)
    assert title(folder) == "wrong"  # a checksum alone is believed
    path.chmod(mode)
    assert title(folder) == "first"
    assert not cache_file().stat().st_mode & 0o077


def test_a_pipe_in_place_of_a_cache_or_table_is_not_waited_for(folder: Path) -> None:
    title(folder)
    path = cache_file()
    path.unlink()
    os.mkfifo(path)
    assert title(folder) == "first"
    assert path.is_file()
    (folder / "threads").mkdir()
    os.mkfifo(folder / "threads" / "x.yaml")
    with pytest.raises(TableError, match=r"x.yaml:1: cannot be read \(it is no regular file\)"):
        title(folder)
