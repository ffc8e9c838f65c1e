"""What `--json` prints: the same nouns as the text, every field of a row, figures that are known.

That a 37 and a 45 degree flare share 3/4-16 UNF is common practice; 9/16-18 UNF 2A major diameter
0.5611 to 0.5524 in: ASME B1.1, table of limits of size.
"""

import json
from typing import Any

import pytest

from identify.entry import main
from identify.pages.pair import pair_json, pair_of
from identify.pages.tables_json import end_json
from identify.reasoning.mating import mates_of
from tests.pages.told import pair_text
from tests.shipped import end_of, knowledge

CATALOGUE, BOOK = knowledge().catalogue, knowledge().book


def printed(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    assert main([*words, "--json"]) in (0, 3, 4)
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, dict)
    return found


def pair(one: str, other: str) -> dict[str, Any]:
    return pair_json(pair_of(CATALOGUE, BOOK, end_of(one), end_of(other)))


# ---- show


def test_show_gives_limits_mates_and_who_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    found = printed(capsys, "show", "flare37:-6:male")
    (thread,) = found["threads"]
    assert thread["designation"] == "9/16-18 UNF"
    low, high = (mm / 25.4 for mm in thread["external"]["crest_mm"])
    assert (round(low, 4), round(high, 4)) == (0.5524, 0.5611)
    assert found["mates"] == ["flare37:-6:female"]
    assert found["provenance"]["source"] in CATALOGUE.sources
    assert found["seats"][0]["half_angle_deg"] == 37
    assert {"outcome", "hazard", "turns", "reason", "id"} == set(found["never_on"][0])


@pytest.mark.parametrize("row", range(0, 700, 29))
def test_show_keeps_every_size_and_says_unknown_as_null(row: int) -> None:
    end = CATALOGUE.ends[row]
    found = json.loads(json.dumps(end_json(CATALOGUE, end, mates_of(CATALOGUE, end, BOOK))))
    assert found["id"] == end.id
    for feature, mm in end.sizes.items():
        assert found["sizes_mm"][feature] == mm
    assert found["rating"]["bar"] == end.rating.bar
    assert len(found["figures"]) == len(end.figures)
    assert len(found["also_seen"]) == len(end.also_seen)
    assert found["refuse"] == (end.refuse or None)
    assert [each["designation"] for each in found["threads"]] == list(
        dict.fromkeys(filter(None, (end.thread, *(seat.thread for seat in end.seats))))
    )


# ---- compare


def test_two_of_one_gender_are_each_put_in_place_of_the_other(
    capsys: pytest.CaptureFixture[str],
) -> None:
    found = printed(capsys, "compare", "flare37:-8:male", "flare45:-8:male")
    assert (found["a"], found["b"]) == ("flare37:-8:male", "flare45:-8:male")
    assert found["together"] is None
    for key in ("b_for_a", "a_for_b"):
        assert set(found[key]) == {"outcome", "hazard", "turns", "reason"}
        assert found[key]["outcome"] == "threads run but it does not seal"
        assert found[key]["turns"] is None
    (angle,) = [each for each in found["tell_apart"] if each["reading"] == "seat_angle"]
    assert (angle["apart"], angle["unit"], angle["resolved"]) == (8, "deg", True)
    assert any("Seat gauge" in each["tell_apart"] for each in found["experience"])


def test_male_and_female_are_put_together() -> None:
    found = pair("flare37:-4:male", "flare37:-4:female")
    assert found["together"]["outcome"] == "mates and seals"
    assert found["together"]["hazard"] == "low"
    assert (found["b_for_a"], found["a_for_b"], found["tell_apart"]) == (None, None, [])


def test_a_thread_that_binds_tells_after_how_many_turns() -> None:
    found = pair("orb_metric:M14x1.5:male", "orb_un:-6:female")["together"]
    assert found["outcome"] == "starts, then binds"
    assert 2 <= found["turns"] <= 4  # "about three turns": rules/lookalikes.yaml


@pytest.mark.parametrize(
    ("one", "other"),
    [("flange61:1-in:flange", "flange62:1-in:flange"), ("flare37:-8:male", "flare37:-8:female"),
     ("r_taper:R1/2:male", "npt:1/2-NPT:male")],
)  # fmt: skip
def test_the_object_says_what_the_page_says(one: str, other: str) -> None:
    found = pair(one, other)
    page = " ".join(pair_text(end_of(one), end_of(other)).split())
    told = [found[key] for key in ("together", "b_for_a", "a_for_b") if found[key]]
    assert told
    for each in told:
        assert each["outcome"] in page
        assert f"Hazard {each['hazard']}." in page
        assert each["reason"] in page
    for each in found["tell_apart"]:
        if each["resolved"]:
            assert f"{each['a']} against {each['b']}" in page


# ---- confirm, tables


def test_confirm_says_how_the_claim_stands(capsys: pytest.CaptureFixture[str]) -> None:
    found = printed(capsys, "confirm", "flare37:-8:male", "thread_od=18.9 mm", "pitch=16 tpi")
    assert found["standing"] in ("stands", "doubtful", "refuted")
    assert found["claimed"]["id"] == "flare37:-8:male"
    assert all(each["sentence"] for each in found["evidence"])


def test_tables_count_families_rows_and_sources(capsys: pytest.CaptureFixture[str]) -> None:
    found = printed(capsys, "tables")
    assert [each["family"] for each in found["families"]] == list(CATALOGUE.families)
    assert sum(each["rows"] for each in found["families"]) == len(CATALOGUE.ends) == found["rows"]
    one = printed(capsys, "tables", "flare37")
    assert one["rows"] == len(one["ends"])
    assert {each["id"] for each in one["ends"]} == {
        end.id for end in CATALOGUE.ends if end.family == "flare37"
    }
    sources = printed(capsys, "tables", "--sources")["sources"]
    assert {each["key"] for each in sources} >= set(CATALOGUE.sources)
    assert all(each["cited"] > 0 for each in sources)


def test_a_check_of_tables_has_no_object(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["tables", "check", "--json"]) == 2
    assert "leave out --json" in capsys.readouterr().err
