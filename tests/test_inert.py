# ruff: noqa: E501 - command lines, one after the other
"""Nothing that anybody typed, named or wrote into a file reaches a terminal as anything but text."""

import json
import os
from io import StringIO
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from identify.commands.output import Edge
from identify.entry import main
from identify.pages.blocks import Line
from identify.transliterate import inert
from tests.plain.talk import hold
from tests.torture.journals import HEAD, MALE, NAME, observed
from tests.tui.stage import Stage, settle, text_of

EVIL = "\x1b[2J\x1b]0;owned\x07\x9b31m\u202e\u2066\r\x08\x7f\x00\u2028"
SHOWN = "\\u001b[2J"


def strange(text: str) -> list[str]:
    return [c for c in text if not c.isprintable() and c not in "\n\t\xa0"]


@given(st.text(alphabet=st.characters(), max_size=40))
def test_any_text_becomes_inert_and_stays_itself_to_json(text: str) -> None:
    safe = inert(text)
    assert strange(safe) == [
        c for c in safe if not c.isprintable() and c in "\u2007\u2009\u202f"
    ] or all(c.isspace() for c in strange(safe))
    assert inert(safe) == safe
    written = json.dumps(text, ensure_ascii=False)
    assert json.loads(inert(written), strict=False) == text


def test_what_is_text_is_left_alone() -> None:
    for text in ("20.9 mm ± 0.1", "½ Ø ° × —", "a\nb\tc", "漢字 é", "20\xa0mm", ""):
        assert inert(text) == text


def test_every_character_stays_if_it_is_shown_or_a_space() -> None:
    for code in (*range(0x3100), *range(0x3100, 0x110000, 97)):
        c = chr(code)
        stays = c.isprintable() or (
            c.isspace() and c not in "\r\v\f\x1c\x1d\x1e\x1f\x85\u2028\u2029"
        )
        assert (inert(f"é{c}\n") == f"é{c}\n") is (inert(c) == c) is stays, hex(code)


def test_a_page_written_piece_by_piece_is_inert_too() -> None:
    out = StringIO()
    Edge(out, "standard output").writelines([EVIL, "b"])
    assert out.getvalue() == f"{inert(EVIL)}b"


COMMANDS = (
    ["show", EVIL], ["show", f"flare37{EVIL}"], ["compare", EVIL, "orfs:-8:male"], [EVIL], ["ask", EVIL],
    ["rank", f"{EVIL}=3"], ["rank", f"thread_od={EVIL}"], ["rank", "--limit", EVIL], ["rank", f"--{EVIL}"],
    ["rank", "--batch", EVIL], ["rank", "hex=9 mm", "--tables", EVIL], ["tables", EVIL], ["tables", "check", EVIL],
    ["confirm", EVIL, "hex=9 mm"], ["confirm", "flare37:-8:male", f"hex={EVIL}"], ["gauges", "--paper", EVIL],
    ["gauges", "--output", f"no/{EVIL}"], ["rank", "gender=male", "hex=9 mm", f"marking={EVIL}"],
    ["ask", "--theme", EVIL],
)  # fmt: skip


@pytest.mark.parametrize("words", COMMANDS, ids=lambda words: " ".join(words).split("\x1b")[0])
def test_no_word_of_a_command_line_passes_through(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([word.replace("\x00", "") for word in words]) == 2
    streams = capsys.readouterr()
    assert streams.err or words[0] == "tables"
    assert strange(streams.out + streams.err) == []


def test_bytes_of_a_command_line_that_are_no_text_are_told(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["show", os.fsdecode(b"\xff\x9b")]) == 2
    assert strange(capsys.readouterr().err) == []


def test_nothing_of_a_batch_passes_through(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "batch.jsonl"
    samples = [
        {"id": EVIL, "readings": {"gender": "male", "marking": "12L", "hex": "9 mm"}},
        {"id": 2, "readings": {EVIL: "9 mm"}},
        {"id": 3, "readings": {"hex": EVIL}},
    ]
    file.write_text("".join(f"{json.dumps(each)}\n" for each in samples), encoding="utf-8")
    assert main(["rank", "--batch", str(file)]) == 1  # the evil ones failed
    out = capsys.readouterr().out
    assert strange(out) == []
    assert json.loads(out.splitlines()[0])["id"] == EVIL


def test_nothing_of_a_table_passes_through(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Titles and keys of a sound folder, and the name of an unsound file."""
    own = tmp_path / "own"
    own.mkdir()
    title = json.dumps(EVIL)
    sources = f"schema: source_table/1\nsources:\n  own: {{title: {title}, kind: memory}}\n"
    (own / "sources.yaml").write_text(sources, encoding="utf-8")
    assert main(["tables", "--sources", "--tables", str(own)]) == 0
    out = capsys.readouterr().out
    assert SHOWN in out
    assert strange(out) == []
    (own / "threads").mkdir()
    (own / "threads" / "\x1b[2J.yaml").write_text(f"{title}: 1\n", encoding="utf-8")
    assert main(["tables", "check", str(own)]) == 2
    streams = capsys.readouterr()
    assert SHOWN in streams.out
    assert strange(streams.out + streams.err) == []


def test_nothing_of_a_journal_passes_through(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """As a dialogue of lines, and in the file that w writes."""
    folder = tmp_path / "whichend" / "interviews"
    folder.mkdir(parents=True)
    line = observed("marking", "eye", EVIL, kind="marking", text=EVIL)
    (folder / NAME).write_text(f"{HEAD}\n{MALE}\n{line}\n", encoding="utf-8")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    script = tmp_path / "script"
    script.write_text("a\n\nw\nq\n", encoding="utf-8")
    with script.open(encoding="utf-8") as lines:
        monkeypatch.setattr("sys.stdin", lines)
        assert main(["ask", "--plain", "--resume"]) == 0
    out = capsys.readouterr().out
    assert SHOWN in out
    assert strange(out) == []
    (written,) = tmp_path.glob("whichend-*.txt")
    assert SHOWN in written.read_text(encoding="utf-8")
    assert strange(written.read_text(encoding="utf-8")) == []


def test_w_writes_over_nothing_and_through_no_link(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    hold(tmp_path / "kept", "1", "1", "1", "20.9 mm", "w")
    (first,) = tmp_path.glob("whichend-*.txt")
    before = first.read_text(encoding="utf-8")
    hold(tmp_path / "kept", "1", "1", "1", "20.9 mm", "w")
    assert first.read_text(encoding="utf-8") == before
    assert len(list(tmp_path.glob("whichend-*.txt"))) == 2


def test_gauges_write_over_nothing_and_through_no_link(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    target, link = tmp_path / "mine.html", tmp_path / "link.html"
    target.write_text("mine", encoding="utf-8")
    link.symlink_to(tmp_path / "elsewhere.html")
    for name in (target, link):
        assert main(["gauges", "--output", str(name)]) == 2
        assert "is there already" in capsys.readouterr().err
    assert target.read_text(encoding="utf-8") == "mine"
    assert not (tmp_path / "elsewhere.html").exists()


def test_no_pane_of_the_full_screen_passes_it_through() -> None:
    import asyncio

    from identify.tui.screens.paged import PagedScreen
    from tests.tui.world import ENGINE, SNAPSHOTS

    class Evil(PagedScreen):
        def blocks(self, snapshot: object) -> list:
            return []

        def title_lines(self, snapshot: object, width: int) -> tuple[Line, ...]:
            return (Line(EVIL),)

    async def play() -> str:
        app = Stage(Evil(ENGINE, SNAPSHOTS["halfway"]))
        async with app.run_test(size=(80, 24)) as pilot:
            await settle(pilot)
            return text_of(app)

    text = asyncio.run(play())
    assert SHOWN in text
    assert strange(text) == []
