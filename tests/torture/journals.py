# ruff: noqa: E501 - a table of cases reads best with one a line
"""Journals that somebody, or some accident, has spoilt: none may stop a start or be written behind.

Each is laid into a folder with a sound one beside it; then the interview is resumed and answered.
"""

import json
import os
from collections.abc import Callable
from pathlib import Path

from identify.jobs.journal import FORMAT
from identify.jobs.shelf import unfinished, weighable
from tests.plain.talk import engine, hold

HEAD = json.dumps({"format": FORMAT, "begun": "2025-03-01T08:30:00"})
NAME = "interview-20250301T083000-7.jsonl"
MALE = (
    '{"event":"observed","feature":"gender","entered":"male","how":"eye",'
    '"value":{"kind":"choice","word":"male"}}'
)
OD = (
    '{"event":"observed","feature":"thread_od","entered":"20.9 mm","how":"caliper",'
    '"value":{"kind":"length","mm":20.9,"spread_mm":0.0}}'
)


def observed(feature: str, how: str = "caliper", entered: object = "x", **value: object) -> str:
    """Return a line that says a reading."""
    return json.dumps(
        {"event": "observed", "feature": feature, "entered": entered, "how": how, "value": value}
    )


def _lines(*lines: str) -> bytes:
    return "".join(f"{line}\n" for line in lines).encode("utf-8", "surrogatepass")


NAN, BIG = float("nan"), 10**400
SPOILT: dict[str, bytes] = {
    "empty": b"",
    "zeros": b"\0" * 4096,
    "zeros after": _lines(HEAD, MALE) + b"\0" * 512,
    "zeros within": _lines(HEAD, MALE) + b"\0" * 512 + b"\n" + _lines(OD),
    "torn": _lines(HEAD, MALE) + OD[:30].encode(),
    "torn head": HEAD[:20].encode(),
    "no head": _lines(MALE, OD),
    "head twice": _lines(HEAD, MALE, HEAD, OD),
    "head is a list": _lines("[1]", MALE),
    "head is a number": _lines("7", MALE),
    "later format": _lines(HEAD.replace("/1", "/2"), MALE),
    "other format": _lines(HEAD.replace("whichend-interview/1", "something"), MALE),
    "no format": _lines('{"begun": "2025-03-01T08:30:00"}', MALE),
    "begun is no time": _lines(HEAD.replace("2025-03-01T08:30:00", "yesterday"), MALE),
    "begun is an escape": _lines(json.dumps({"format": FORMAT, "begun": "\x1b[2J"}), MALE),
    "begun is a number": _lines(json.dumps({"format": FORMAT, "begun": 5}), MALE),
    "begun in year 1": _lines(json.dumps({"format": FORMAT, "begun": "0001-01-01T00:00:00"}), MALE),
    "begun in year 9999": _lines(
        json.dumps({"format": FORMAT, "begun": "9999-12-31T23:59:59-23:00"}), MALE
    ),
    "nested deep": _lines(HEAD, MALE, "[" * 100_000),
    "nested deep object": _lines(HEAD, MALE, '{"a":' * 50_000),
    "a long line": _lines(HEAD, MALE, observed("marking", "eye", "x" * 300_000, kind="marking")),
    "a long number": _lines(HEAD, MALE, f'{{"event": {"9" * 6000}}}'),
    "not UTF-8": _lines(HEAD, MALE) + b'{"event":"\xff\xfe"}\n' + _lines(OD),
    "UTF-16": _lines(HEAD, MALE).decode().encode("utf-16"),
    "byte order mark": b"\xef\xbb\xbf" + _lines(HEAD, MALE),
    "carriage returns": _lines(HEAD, MALE, OD).replace(b"\n", b"\r\n"),
    "lone surrogate": _lines(HEAD, MALE, observed("marking", "eye", "\udcff", kind="marking", text="\udcff")),
    "finished": _lines(HEAD, MALE, '{"event":"finished"}'),
    "finished, then more": _lines(HEAD, MALE, '{"event":"finished"}', OD),
    "back too often": _lines(HEAD, '{"event":"back"}', '{"event":"back"}', MALE),
    "a later event": _lines(HEAD, MALE, '{"event":"weighed","feature":"gender"}', OD),
    "events that are none": _lines(HEAD, MALE, "null", "5", '"x"', "[]", "{}", OD),
    "event is a list": _lines(HEAD, MALE, '{"event":["observed"]}', OD),
    "unknown feature": _lines(HEAD, MALE, observed("colour", kind="choice", word="red")),
    "unknown way": _lines(HEAD, MALE, observed("hex", "nose", kind="length", mm=9)),
    "unknown kind": _lines(HEAD, MALE, observed("hex", kind="weight", mm=9)),
    "unknown word": _lines(HEAD, observed("gender", "eye", kind="choice", word="both")),
    "word is a list": _lines(HEAD, observed("gender", "eye", kind="choice", word=["male"])),
    "wrong kind": _lines(HEAD, MALE, observed("hex", kind="choice", word="male")),
    "wrong kind of gender": _lines(HEAD, observed("gender", "eye", kind="length", mm=9)),
    "wrong way": _lines(HEAD, MALE, observed("hex", "protractor", kind="length", mm=9)),
    "a field too many": _lines(HEAD, MALE, observed("hex", kind="length", mm=9, colour="red")),
    "a field too few": _lines(HEAD, MALE, observed("hex", kind="length")),
    "no value": _lines(HEAD, MALE, '{"event":"observed","feature":"hex","entered":"x","how":"rule"}'),
    "value is a text": _lines(HEAD, MALE, OD.replace('{"kind"', '"').replace("}}", '"}')),
    "too large": _lines(HEAD, MALE, observed("hex", kind="length", mm=1e6)),
    "too small": _lines(HEAD, MALE, observed("hex", kind="length", mm=1e-9)),
    "below 0": _lines(HEAD, MALE, observed("hex", kind="length", mm=-9)),
    "not a number": _lines(HEAD, MALE, observed("hex", kind="length", mm=NAN)),
    "infinite": _lines(HEAD, MALE, '{"event":"observed","feature":"hex","entered":"x","how":"rule",'
                                   '"value":{"kind":"length","mm":1e999}}'),
    "beyond a float": _lines(HEAD, MALE, observed("hex", kind="length", mm=BIG)),
    "true for a number": _lines(HEAD, MALE, observed("hex", kind="length", mm=True)),
    "text for a number": _lines(HEAD, MALE, observed("hex", kind="length", mm="9")),
    "spread beyond all": _lines(HEAD, MALE, observed("hex", kind="length", mm=9, spread_mm=1e9)),
    "pitch of nothing": _lines(HEAD, MALE, observed("pitch", "gauge", kind="pitch", mm=0)),
    "pitches without end": _lines(HEAD, MALE, observed("pitch", "counted", kind="pitch", mm=1, pitches=1e300)),
    "angle beyond": _lines(HEAD, MALE, observed("seat_angle", "gauge", kind="angle", deg=400)),
    "angle of no basis": _lines(HEAD, MALE, observed("seat_angle", "gauge", kind="angle", deg=37, basis="x")),
    "steep slope": _lines(HEAD, MALE, observed("taper", kind="slope", rise_mm=9, over_mm=1)),
    "slope over nothing": _lines(HEAD, MALE, observed("taper", kind="slope", rise_mm=1, over_mm=0)),
    "trial on nobody's part": _lines(HEAD, MALE, observed(
        "trial_fit", "gauge", kind="trial", known="no such part", outcome="loose", turns=None)),
    "trial on a nameless part": _lines(HEAD, MALE, observed(
        "trial_fit", "gauge", kind="trial", known="", outcome="loose", turns=None)),
    "trial of endless turns": _lines(HEAD, MALE, observed(
        "trial_fit", "gauge", kind="trial", known="G 1/2 female", outcome="binds", turns=1e9)),
    "trial of an unknown outcome": _lines(HEAD, MALE, observed(
        "trial_fit", "gauge", kind="trial", known="G 1/2 female", outcome="melts", turns=None)),
    "escapes in what was typed": _lines(HEAD, MALE, observed(
        "marking", "eye", "\x1b]0;x\x07\x1b[2J\u202e", kind="marking", text="\x9b31m")),
    "typed is a number": _lines(HEAD, MALE, observed("hex", entered=5, kind="length", mm=9)),
    "unknown tools": _lines(HEAD, '{"event":"equipped","tools":["hammer"]}', MALE),
    "tools are a number": _lines(HEAD, '{"event":"equipped","tools":5}', MALE),
    "tools are a text": _lines(HEAD, '{"event":"equipped","tools":"caliper"}', MALE),
    "unknown access": _lines(HEAD, '{"event":"reached","access":"moon"}', MALE),
    "given up nothing": _lines(HEAD, MALE, '{"event":"given_up"}'),
    "ten thousand answers": _lines(HEAD, *[MALE, OD] * 5000),
}  # fmt: skip
NO_FILES: dict[str, Callable[[Path], None]] = {
    "a pipe": lambda path: os.mkfifo(path),
    "a folder": lambda path: path.mkdir(),
    "a link to nowhere": lambda path: path.symlink_to("nowhere"),
    "a link to itself": lambda path: path.symlink_to(path.name),
    "a device": lambda path: path.symlink_to("/dev/zero"),
}


def lay(folder: Path, name: str) -> None:
    """Lay one spoilt journal into a folder."""
    if name in SPOILT:
        (folder / NAME).write_bytes(SPOILT[name])
    else:
        NO_FILES[name](folder / NAME)


def harmed(folder: Path, name: str) -> str | None:
    """Resume a spoilt journal, answer, resume again; return what went wrong, None if nothing did.

    Whatever was readable before must be there at the end, with the answer that was added.
    """
    lay(folder, name)
    found = unfinished(folder)
    before = weighable(engine(), found[0]) if found else None
    _, dialogue = hold(folder, *([] if before else ["1", "1", "1"]), "27 mm", saved=before)
    if dialogue.autosave.trouble:
        return f"{name}: {dialogue.autosave.trouble}"
    after = [each for each in unfinished(folder) if each.events == dialogue.state.events]
    if len(after) != 1:
        return f"{name}: {len(after)} files hold what was answered"
    if before and after[0].events[: len(before.events)] != before.events:
        return f"{name}: an answer was lost"
    if after[0].unread:
        return f"{name}: an answer stands behind what cannot be read"
    return None
