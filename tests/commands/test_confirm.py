"""`whichend confirm`: stands, doubtful or refuted, with the reasons and the check that would tell.

Threads and seats that the cases rest on: 3/4-16 UNF and 37 or 45 deg half angle at -8 from SAE J514
and J512, G 1/2 with a 60 deg included cone from ISO 8434-6 and ISO 228-1, 1/8 with 28 and 1/4 with
19 threads an inch from ISO 228-1; that a 45 deg seat refutes a 37 deg flare is the trade's rule
(common practice).
"""

import json
import subprocess
import sys

import pytest

from identify.entry import main
from identify.model.claim import Said, Standing
from identify.model.feature import Feature
from identify.reading.parse import parse_readings
from identify.reasoning.claim import hold
from identify.reasoning.engine import Situation
from tests.plain.talk import engine
from tests.shipped import knowledge

FLARE = ("gender=male", "thread_od=18.9 mm", "pitch=16 tpi", "seat_shape=convex")


def claim(name, *typed, situation=None):
    verdict = engine().conclude(parse_readings(typed), situation)
    return hold(engine(), Said(name), verdict, situation)


def test_readings_of_the_end_itself_let_the_claim_stand():
    found = claim("flare37:-8:male", *FLARE, "seat_angle=37 deg half")
    assert found.standing is Standing.STANDS
    assert found.against == ()
    assert found.leader is None
    assert found.check is None


def test_the_claim_tells_what_the_end_is_where_nobody_said(capsys):
    typed = ("confirm", "qc7241a:12.5:male", "plug_od=20.5 mm", "o_ring=none")
    assert main([*typed]) == 0
    assert "Nobody said the gender; taken from the claim: plug." in capsys.readouterr().out
    for word in ("plug", "male", "none"):
        main([*typed, f"gender={word}"])
        told = capsys.readouterr().out
        assert f"{word} is what it shows" in told
        assert "Against it" not in told
    assert main([*typed, "gender=socket"]) == 2
    assert "on which no plug_od is measured" in capsys.readouterr().err


def test_a_lookalike_not_ruled_out_makes_it_doubtful_and_names_the_check():
    found = claim("flare37:-8:male", *FLARE)
    assert found.standing is Standing.DOUBTFUL
    assert "flare45:-8:male" in [each.end.id for each in found.rivals]
    assert found.check.feature is Feature.SEAT_ANGLE
    assert found.against == ()


def test_the_seat_of_another_flare_refutes_it():
    found = claim("flare37:-8:male", *FLARE, "seat_angle=45 deg half")
    assert found.standing is Standing.REFUTED
    assert [each.evidence.feature for each in found.against] == [Feature.SEAT_ANGLE]
    assert found.leader.end.id == "flare45:-8:male"


def test_one_reading_that_disagrees_with_the_rest_is_not_passed_over():
    found = claim("flare37:-8:male", *FLARE, "seat_angle=37 deg half", "hex=150 mm")
    plain = claim("flare37:-8:male", *FLARE, "seat_angle=37 deg half")
    assert plain.standing is Standing.STANDS
    assert found.standing is Standing.DOUBTFUL
    assert [each.reading.feature for each in found.suspects] == [Feature.HEX]


def test_a_clue_alone_never_refutes():
    found = claim("flare37:-8:male", "gender=male", "material=plastic", "hex=60 mm")
    assert found.standing is Standing.DOUBTFUL


@pytest.mark.parametrize("name", ["staple:DN6:male", "fr24_gas:13.25:male"])
def test_a_rare_end_is_doubtful_and_not_refuted_by_being_rare(name):
    ends = knowledge().catalogue.by_id
    end = ends.get(name) or next(e for e in ends.values() if e.id.startswith(name.split(":")[0]))
    found = claim(end.id, f"gender={end.gender}")
    assert found.claimed.probability < engine().book.limits.refuted
    assert found.standing is Standing.DOUBTFUL


def test_the_wrong_gender_refutes():
    found = claim("flare37:-8:female", *FLARE)
    assert found.standing is Standing.REFUTED
    assert Feature.THREAD_OD in [each.evidence.feature for each in found.against]


def test_a_pipe_size_with_the_pitch_of_another_is_refuted():
    found = claim(
        "bspp60:G1/8:male", "gender=male", "thread_od=13.1 mm", "pitch=19 tpi", "seat_shape=concave"
    )
    assert found.standing is Standing.REFUTED
    assert found.leader.end.size == "G1/4"


def test_an_end_stands_or_is_doubtful_against_its_own_gender():
    for end in knowledge().catalogue.ends[::25]:
        found = claim(end.id, f"gender={end.gender}")
        assert found.standing is not Standing.REFUTED, end.id


def test_the_check_fits_the_tools_and_what_is_known():
    without = claim("flare37:-8:male", *FLARE[:3], situation=Situation(frozenset()))
    assert without.check.how == "none"
    assert without.check.feature not in {Feature.THREAD_OD, Feature.PITCH, Feature.GENDER}


def test_rivals_are_others_likeliest_first():
    found = claim("flare37:-8:male", *FLARE[:3])
    chances = [each.probability for each in found.rivals]
    assert chances == sorted(chances, reverse=True)
    own = {found.claimed.end.id, *(twin.id for twin in found.claimed.twins)}
    assert own.isdisjoint(each.end.id for each in found.rivals)


# ---- the command


@pytest.mark.parametrize(
    ("more", "status", "sentence"),
    [
        ((), 3, "The claim is doubtful: 37 deg flare (JIC), -8, male ("),
        (("seat_angle=37 deg half",), 0, "The claim stands: 37 deg flare (JIC), -8, male (>99"),
        (
            ("seat_angle=45 deg half",),
            4,
            "The claim is refuted: this is not 37 deg flare (JIC)",
        ),
    ],
)
def test_the_exit_status_says_it(capsys, more, status, sentence):
    assert main(["confirm", "flare37:-8:male", *FLARE, *more]) == status
    said = capsys.readouterr().out
    assert said.startswith(sentence)
    assert max(map(len, said.splitlines())) <= 80
    assert "no proof of a joint that holds" in said


def test_doubt_names_what_goes_wrong_and_what_to_do(capsys):
    main(["confirm", "flare37:-8:male", *FLARE])
    said = " ".join(capsys.readouterr().out.split())
    assert "!!! 45 deg flare (SAE 45°), -8" in said
    assert "angle of the seat: 45 deg half, not 37 deg half" in said
    assert "Check: What angle is the seat" in said


def test_gender_may_come_from_the_claim_and_is_said_to(capsys):
    main(["confirm", "flare37:-8:male", "pitch=16 tpi"])
    assert "taken from the claim: male." in capsys.readouterr().out
    main(["confirm", "flare37:-8:male", "thread_od=18.9 mm"])
    assert "taken from the claim" not in capsys.readouterr().out


def test_the_end_may_be_named_in_words(capsys):
    assert main(["confirm", "bspp60", "G1/2", "male", "thread_od=20.9 mm"]) == 3
    assert "G parallel thread with 60 deg cone (BSPP), G1/2, male" in capsys.readouterr().out


def test_json_holds_the_same(capsys):
    assert main(["confirm", "flare37:-8:male", *FLARE, "--json"]) == 3
    found = json.loads(capsys.readouterr().out)
    assert found["standing"] == "doubtful"
    assert found["claimed"]["id"] == "flare37:-8:male"
    assert 0 < found["claimed"]["own_probability"] <= found["claimed"]["probability"] < 1
    assert found["check"]["feature"] == "seat_angle"
    assert found["fits_best"] is None
    assert [each["reading"] for each in found["evidence"]] == [
        "gender", "thread_od", "pitch", "seat_shape",
    ]  # fmt: skip
    assert not any(each["against"] for each in found["evidence"])
    assert {"id", "standing", "hazard", "tell_apart_by", "goes_wrong"} <= found["not_ruled_out"][
        0
    ].keys()


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["flare37:-8:male"], "No readings given; add some"),
        (["thread_od=18.9 mm"], "No end was named"),
        (
            ["flare37:-8:mal", "pitch=16 tpi"],
            '"flare37:-8:mal" names no end of the tables.',
        ),
        (["flare37", "pitch=16 tpi"], "The gender was not said"),
        (["flare37:-8:male", "pitch=16"], '"16" has no unit'),
        (["flare37:-8:male", "diameter=18.9 mm"], "does not say which size is meant"),
        (["flare37:-8:male", "thread_od=19 mm", "thread_id=17 mm"], "speaks of a male end"),
        (["flare37:-8:male", "origin=uk", "origin=japan"], "origin is given twice"),
    ],
)
def test_a_slip_is_one_sentence_and_status_2(words, sentence, capsys):
    assert main(["confirm", *words]) == 2
    streams = capsys.readouterr()
    assert sentence in streams.err
    assert streams.out == ""


def test_help_documents_the_exit_status():
    done = subprocess.run(
        [sys.executable, "-m", "identify", "confirm", "--help"], capture_output=True, text=True
    )
    assert "0 it stands, 3 doubtful, 4 refuted; 2" in " ".join(done.stdout.split())


def test_readings_in_short_are_those_that_are_named(capsys):
    named = ("thread_od=18.9 mm", "pitch=16 tpi", "seat_angle=37 deg half")
    assert main(["confirm", "JIC", "8", "male", "--json", *named]) == 0
    long = json.loads(capsys.readouterr().out)
    for short in ("18.9 16t 37h", "m 18.9 16t 37h"):
        assert main(["confirm", "JIC", "8", "male", "--json", f"readings={short}"]) == 0
        assert json.loads(capsys.readouterr().out) == long


def test_a_line_in_short_that_cannot_be_read_is_told(capsys):
    assert main(["confirm", "JIC", "8", "readings=m 18.9 16x"]) == 2
    assert "16x" in capsys.readouterr().err
