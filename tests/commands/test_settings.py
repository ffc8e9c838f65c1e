"""The configuration file: every key, every flag over it, every fault with its line."""

import io
from pathlib import Path

import pytest

from identify.commands.settings import KEYS, config_path, read_config
from identify.entry import main
from identify.errors import RecordError
from identify.interview.session import Equipped, Observed
from identify.jobs.shelf import unfinished
from identify.model.rule import Tool


@pytest.fixture
def config(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the configuration file of a user without one."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    path = Path(config_path())
    path.parent.mkdir(parents=True)
    return path


def test_all_keys_are_read(config: Path) -> None:
    config.write_text(
        "tools: [caliper, metric gauge]\nunits: in\nregion: europe\ntables: own\ntheme: sunlight\n"
        "care: careful\nlabel_size: 57 x 32\nguess: true\nlearn: true\n",
        "utf-8",
    )
    found = read_config(str(config))
    assert found.keys() == KEYS.keys()
    assert found["tools"] == {Tool.CALIPER, Tool.METRIC_GAUGE}
    assert found["tables"] == config.parent / "own"
    assert found["label_size"] == "57x32"
    assert found["guess"] is True
    assert (found["units"], found["region"], found["care"]) == ("in", "europe", "careful")


def test_every_key_is_a_flag(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["ask", "--help"])
    page = capsys.readouterr().out
    assert all(f"--{key.replace('_', '-')}" in page for key in KEYS)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("units: mm\ntehme: dark\n", r'config.yaml:2: "tehme" is no key; did you mean "theme"\?'),
        ("theme: pink\n", r"config.yaml:1: theme is one of dark, sunlight, terminal"),
        ("\n\ntools: [hammer]\n", r'config.yaml:3: "hammer" is no tool'),
        ("tools: [none]\n", r'config.yaml:1: "none" is no tool'),
        ("tools: {a: 1}\n", r"config.yaml:1: tools is no list"),
        ("tools: 5\n", r"config.yaml:1: tools is no list"),
        ("units: [mm]\n", r"config.yaml:1: units is one of mm, in"),
        ("region: moon\n", r"config.yaml:1: region is one of uk"),
        ("label_size: 5\n", r"config.yaml:1: label_size: .* is no size of a label"),
        ("guess: often\n", r'config.yaml:1: guess is true or false, not "often"'),
        ("care: true\n", r"config.yaml:1: care is one of careful"),
        ("tables: 5\n", r"config.yaml:1: tables is the path"),
        ("units: mm\nunits: in\n", r"config.yaml:2.*twice"),
        ("units: [\n", r"config.yaml:"),
        ("- a\n", r"config.yaml:1"),
        ("a: &a [*a]\n", r"config.yaml:1"),
        ("\x1b[2J: 1\n", r"config.yaml:1"),
    ],
)
def test_a_fault_is_named_with_its_line(config: Path, text: str, fault: str) -> None:
    config.write_text(text, "utf-8")
    with pytest.raises(RecordError, match=fault):
        read_config(str(config))


def test_all_faults_are_told_together_and_stop_a_command(
    config: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    config.write_text("theme: pink\nunits: ft\n", "utf-8")
    assert main(["find", "JIC", "-8"]) == 2
    assert [line[-30:] for line in capsys.readouterr().err.splitlines()] != []
    with pytest.raises(RecordError, match=r":1: .*\n.*:2: "):
        read_config(str(config))


def test_a_file_that_is_none_is_named(config: Path) -> None:
    config.mkdir()
    with pytest.raises(RecordError, match="cannot be read"):
        read_config(str(config))
    config.rmdir()
    config.write_bytes(b"\xff")
    with pytest.raises(RecordError, match="not UTF-8"):
        read_config(str(config))
    config.write_text("", "utf-8")
    assert read_config(str(config)) == {}


def started(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, *flags: str) -> tuple[object, ...]:
    """Return the events of an interview in which only access and gender were answered."""
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(b"1\n1\nq\n")))
    assert main(["ask", "--plain", "--new", *flags]) == 0
    return unfinished(tmp_path / "state" / "whichend" / "interviews")[0].events


def test_no_start_asks_again(
    config: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    config.write_text("tools: [caliper, rule]\nregion: japan\nunits: in\n", "utf-8")
    events = started(monkeypatch, tmp_path)
    said = capsys.readouterr().out
    assert "What have you to hand?" not in said
    assert "A bare number is in (u: other unit)." in said
    assert events[0] == Equipped(frozenset({Tool.CALIPER, Tool.RULE}))
    entered = [each.reading.entered for each in events if isinstance(each, Observed)]
    assert entered == ["japan", "male"]


def test_a_flag_overrules_the_file(
    config: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    config.write_text("tools: [caliper, rule]\nregion: japan\n", "utf-8")
    events = started(monkeypatch, tmp_path, "--tools", "seat_gauge", "--region", "uk")
    assert events[0] == Equipped(frozenset({Tool.SEAT_GAUGE}))
    assert [e.reading.entered for e in events if isinstance(e, Observed)] == ["uk", "male"]


def test_tools_that_are_none_are_said(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", "--tools", "caliper,hammer"]) == 2
    assert '"hammer" is no tool' in capsys.readouterr().err
