"""`whichend doctor` finds what is wrong; `whichend completion` prints what a shell accepts."""

import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest

from identify.commands import COMMANDS
from identify.commands.completion import SHELLS
from identify.commands.jobs import VERBS
from identify.entry import main
from identify.knowledge.fingerprint import fingerprints


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the home of a user with nothing in it."""
    for name in ("STATE", "CONFIG"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(tmp_path / name.lower()))
    return tmp_path


def told(capsys: pytest.CaptureFixture[str], *words: str, status: int = 0) -> dict[str, object]:
    assert main(["doctor", "--json", *words]) == status
    found: dict[str, object] = json.loads(capsys.readouterr().out)
    return found


def test_a_sound_installation_has_no_fault(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    found = told(capsys)
    assert found["faults"] == []
    assert (found["found"]["tables"], found["found"]["rules"]) == fingerprints()  # type: ignore[index]
    assert found["found"]["jobs"].startswith(str(home))  # type: ignore[index]
    assert main(["doctor"]) == 0
    assert "No fault was found." in capsys.readouterr().out


def test_a_bad_configuration_is_a_fault_and_does_not_stop_it(
    capsys: pytest.CaptureFixture[str], home: Path
) -> None:
    path = home / "config" / "whichend" / "config.yaml"
    path.parent.mkdir(parents=True)
    path.write_text("theme: pink\n", "utf-8")
    (fault,) = told(capsys, status=1)["faults"]  # type: ignore[misc]
    assert f"{path}:1: theme is one of" in fault


def test_bad_tables_are_a_fault(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    (home / "own" / "ends").mkdir(parents=True)
    (home / "own" / "ends" / "x.yaml").write_text("schema: none\n", "utf-8")
    found = told(capsys, "--tables", str(home / "own"), status=1)
    assert "x.yaml:1" in str(found["faults"])


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root writes anywhere")
def test_a_place_that_cannot_be_written_is_a_fault(
    capsys: pytest.CaptureFixture[str], home: Path
) -> None:
    (home / "state").mkdir(mode=0o500)
    assert "cannot be written" in str(told(capsys, status=1)["faults"])


def test_a_file_where_the_folder_of_jobs_should_be_is_a_fault(
    capsys: pytest.CaptureFixture[str], home: Path
) -> None:
    (home / "state" / "whichend").mkdir(parents=True)
    (home / "state" / "whichend" / "interviews").touch()
    (fault,) = told(capsys, status=1)["faults"]  # type: ignore[misc]
    assert "interviews is no folder, so no job is kept" in fault


def test_the_fingerprint_changes_with_any_table_of_ones_own(home: Path) -> None:
    shipped = fingerprints()
    own = home / "own"
    (own / "rules").mkdir(parents=True)
    (own / "sources.yaml").write_text("a: 1\n", "utf-8")
    first = fingerprints(own)
    assert first[0] != shipped[0]
    assert first[1] == shipped[1]
    (own / "rules" / "expert.yaml").write_text("a: 1\n", "utf-8")
    assert fingerprints(own)[0] == first[0]
    assert fingerprints(own)[1] != first[1]


@pytest.mark.parametrize("shell", SHELLS)
def test_a_completion_knows_every_command(shell: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["completion", shell]) == 0
    script = capsys.readouterr().out
    for word in (*COMMANDS, *VERBS, "low-bandwidth", "without-names"):
        assert word in script, word


@pytest.mark.skipif(not shutil.which("bash"), reason="no such shell")
def test_bash_completes_a_verb_and_an_option(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    main(["completion", "bash"])
    (tmp_path / "script").write_text(capsys.readouterr().out, "utf-8")
    for words, wanted in ((["jobs", "delete"], "delete-customer"), (["rank", "--ba"], "--batch"),
                          (["ask", "--theme", "sun"], "sunlight")):  # fmt: skip
        line = " ".join(["whichend", *words])
        program = (
            f"source {tmp_path / 'script'}; COMP_WORDS=({line}); COMP_CWORD={len(words)}; "
            f"COMP_LINE='{line}'; COMP_POINT={len(line)}; "
            "$(complete -p whichend | sed 's/.*-F \\([^ ]*\\).*/\\1/') 2>/dev/null; "
            'echo "${COMPREPLY[@]}"'
        )
        done = subprocess.run(["bash", "-c", program], capture_output=True, text=True, check=False)
        assert wanted in done.stdout, (words, done.stdout, done.stderr)
