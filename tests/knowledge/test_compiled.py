"""The cache of compiled tables: used when current, made anew when not, never in the way."""

import marshal
import os
import subprocess
import sys
from pathlib import Path

import pytest

from identify.errors import TableError
from identify.knowledge import compiled
from identify.knowledge.build import build_catalogue
from identify.knowledge.cache_file import Head, Parts, headed, opened, packed
from identify.knowledge.compiled import cache_dir, load_section
from identify.knowledge.compiled import (
    compiled as compiled_bytes,
)
from identify.knowledge.loading import Knowledge, load_knowledge
from identify.model.catalogue import Catalogue
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


def load_catalogue(extra: Path | None = None) -> Catalogue:

    folders = [compiled.data_path("thread_tables"), *([extra] if extra else [])]
    return load_section(
        "catalogue", Catalogue, lambda: build_catalogue(list(map(Path, folders))), extra
    )


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a person's own folder of tables, beside shipped tables of a few lines."""
    monkeypatch.setattr(compiled, "data_path", lambda name: str(SMALL))
    path = tmp_path / "own"
    path.mkdir()
    write(path, "first")
    return path


def write(folder: Path, title: str) -> None:
    (folder / "sources.yaml").write_text(TABLE.replace("TITLE", title), encoding="utf-8")


def title(folder: Path) -> str:
    return load_catalogue(folder).sources["own"].title


def cache_file() -> Path:
    (path,) = Path(cache_dir()).glob("catalogue-*.cache")
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
    load_knowledge()
    script = (
        "import sys; from identify.knowledge.loading import load_knowledge; load_knowledge(); "
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
    before, parts = held()
    os.utime(folder / "sources.yaml", ns=(1, 1))
    forbid_reading(monkeypatch)
    assert title(folder) == "first"
    after, same = held()
    assert before.signature != after.signature, "new signature is kept"
    assert (before.content, before.top, parts.written()) == (
        after.content,
        after.top,
        same.written(),
    )


def cut(data: bytes) -> bytes:
    return data[: len(data) // 2]


def flip(data: bytes) -> bytes:
    at = data.index(b"first")
    return data[:at] + b"F" + data[at + 1 :]


def foreign_format(data: bytes) -> bytes:
    return data.replace(b"whichend-cache/3", b"whichend-cache/9", 1)


def whole_but_senseless(data: bytes) -> bytes:
    """Keep right checksums over parts that are no catalogue."""
    head, parts = held()
    senseless = [b"what nobody has written"] * len(parts)
    return packed(head.signature, head.content, head.top, senseless)


def that_hangs_from_nothing(data: bytes) -> bytes:
    head, parts = held()
    return headed(head._replace(top=(7, 10**9)), parts.written())


def a_head_of_another_kind(data: bytes) -> bytes:
    head, parts = held()
    return headed(head._replace(places="text"), parts.written())  # type: ignore[arg-type]


def longer(data: bytes) -> bytes:
    return data + b"more"


def held() -> tuple[Head, Parts]:
    found = opened(str(cache_file()))
    assert found
    return found


@pytest.mark.parametrize(
    "damage",
    [
        cut,
        flip,
        foreign_format,
        a_head_of_another_kind,
        whole_but_senseless,
        that_hangs_from_nothing,
        longer,
        lambda data: b"",
        lambda data: b"\x00\xff" * 500,
        lambda data: data[:17],
        lambda data: data[:40],
    ],
)
def test_damaged_cache_is_made_anew(folder: Path, damage: object) -> None:
    first = load_catalogue(folder)
    whole = cache_file().read_bytes()
    cache_file().write_bytes(damage(whole))  # type: ignore[operator]
    assert load_catalogue(folder) == first
    assert cache_file().read_bytes() == whole


def test_cache_file_that_is_a_folder_does_no_harm(folder: Path) -> None:
    load_catalogue(folder)
    path = cache_file()
    path.unlink()
    path.mkdir()
    assert title(folder) == "first"
    assert [item.name for item in Path(cache_dir()).iterdir()] == [path.name], (
        "nothing is left lying"
    )


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
    assert list(Path(cache_dir()).iterdir()) == []


def test_writers_at_the_same_time_leave_one_whole_cache(monkeypatch: pytest.MonkeyPatch) -> None:
    script = (
        "from identify.knowledge.loading import load_knowledge; "
        "print(len(load_knowledge().catalogue.ends))"
    )
    command = [sys.executable, "-c", script]
    runs = [
        subprocess.Popen(
            command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
        )
        for _ in range(4)
    ]
    results = [run.communicate() for run in runs]
    assert {out for out, _ in results} == {f"{len(load_knowledge().catalogue.ends)}\n"}
    assert {err for _, err in results} == {""}
    forbid_reading(monkeypatch)
    load_knowledge()
    assert [path.suffix for path in Path(cache_dir()).iterdir()] == [".cache"]


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
    assert len(list(Path(cache_dir()).glob("catalogue-*.cache"))) == 2


def test_other_sections_are_kept_beside_the_catalogue() -> None:
    built: list[str] = []

    def numbers() -> dict[str, tuple[float, ...]]:
        built.append("numbers")
        return {"density": (0.1, 0.2)}

    def source() -> Source:
        built.append("source")
        return Source("a", "b", "memory")

    for _ in range(2):
        assert load_section("numbers", object, numbers) == {"density": (0.1, 0.2)}
        assert load_section("source", Source, source) == Source("a", "b", "memory")
    assert built == ["numbers", "source"]


def test_relative_cache_home_is_ignored_as_its_standard_says(
    monkeypatch: pytest.MonkeyPatch, home: Path
) -> None:
    """Source: XDG Base Directory Specification, "All paths must be absolute … ignore it"."""
    monkeypatch.setattr(compiled.sys, "platform", "linux")
    monkeypatch.setenv("XDG_CACHE_HOME", "relative")
    assert cache_dir() == str(home / ".cache/whichend")
    monkeypatch.setenv("XDG_CACHE_HOME", "/somewhere")
    assert cache_dir() == "/somewhere/whichend"


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="such modes are of POSIX")
@pytest.mark.parametrize("mode", [0o660, 0o606, 0o666])
def test_a_cache_that_others_could_have_written_is_made_anew(folder: Path, mode: int) -> None:
    title(folder)
    path = cache_file()
    head, parts = held()
    wrong = [part.replace(b"first", b"wrong") for part in map(parts.__getitem__, range(len(parts)))]
    path.write_bytes(packed(head.signature, head.content, head.top, wrong))
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


def test_what_a_wheel_brings_along_is_used_and_copied(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    built = load_knowledge()
    shipped = tmp_path / "shipped.cache"
    shipped.write_bytes(compiled_bytes(Knowledge, built))
    shipped.chmod(0o644)
    for path in Path(cache_dir()).iterdir():
        path.unlink()
    monkeypatch.setattr(compiled, "shipped_path", lambda name: str(shipped))
    monkeypatch.setitem(sys.modules, "identify.knowledge.build", None)
    assert load_knowledge().book == built.book
    (copy,) = Path(cache_dir()).iterdir()
    (brought, parts), (kept, copied) = (opened(str(each)) or () for each in (shipped, copy))
    assert (brought.content, parts.written()) == (kept.content, copied.written())
    assert not brought.signature, "a wheel does not know where it will lie"
    assert kept.signature


def test_what_a_wheel_brings_along_is_no_use_where_a_file_was_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shipped = tmp_path / "shipped.cache"
    shipped.write_bytes(compiled_bytes(Knowledge, load_knowledge()))
    head, parts = opened(str(shipped)) or ()
    shipped.write_bytes(headed(head._replace(content="of other files"), parts.written()))
    for path in Path(cache_dir()).iterdir():
        path.unlink()
    monkeypatch.setattr(compiled, "shipped_path", lambda name: str(shipped))
    asked: list[int] = []
    load_section("knowledge", Knowledge, lambda: asked.append(1) or load_knowledge())
    assert asked == [1]


def test_reading_a_cache_runs_no_code(folder: Path) -> None:
    """What marshal makes of hostile bytes is a value that nobody calls."""
    title(folder)
    path = cache_file()
    head, parts = held()
    code = marshal.dumps(compile("raise SystemExit('was run')", "hostile", "exec"))
    path.write_bytes(packed(head.signature, head.content, head.top, [code] * len(parts)))
    assert title(folder) == "first"


def test_a_damaged_part_is_made_anew_when_it_is_looked_at() -> None:
    """Each is found by its own checksum; all others are read from the file as before."""
    load_knowledge()
    (path,) = Path(cache_dir()).iterdir()
    data, whole = path.read_bytes(), load_knowledge()
    name = b"metric60:M45x1.5:male"  # in the column of all ids
    at = data.rindex(name)
    path.write_bytes(data[:at] + b"#" + data[at + 1 :])
    told = load_knowledge()
    assert told.catalogue.ids == whole.catalogue.ids
    assert told.catalogue == whole.catalogue
    assert told.book == whole.book
    assert told.layout == whole.layout
    assert path.read_bytes() == data, "and written anew"
    told = load_knowledge()
    os.truncate(path, 3000)
    assert told.catalogue.ids == whole.catalogue.ids


def test_tables_changed_while_a_part_is_made_anew_are_no_mixture(folder: Path) -> None:
    load_catalogue(folder)
    told = load_catalogue(folder)
    os.truncate(cache_file(), 3000)
    write(folder, "other")
    with pytest.raises(TableError, match="changed while they were in use; start whichend again"):
        assert told.sources["own"].title


@pytest.mark.parametrize("name", ["pread"])
def test_without_reads_at_a_place_the_whole_file_is_read(
    folder: Path, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    load_catalogue(folder)
    monkeypatch.delattr(os, name)
    forbid_reading(monkeypatch)
    assert title(folder) == "first"
