"""Phrases of the trade as the three users say them, and what each must name."""

import json

import pytest

from identify.entry import main
from identify.errors import UnknownEndError
from identify.reading.names import name_key, one_end, size_names, understand
from tests.shipped import knowledge

# What the phrase names is common practice; sizes as the standards pair them (SAE J514 dash -8 is
# 3/4-16, DIN 2353 15L is M18x1.5 on 15 mm tube).
ONE = {
    # the engineer reads a parts list
    "JIC -8 male": "flare37:-8:male",
    "37° flare -6 female": "flare37:-6:female",
    "37 deg -6 swivel": "flare37:-6:female",
    "ORFS -8 female": "orfs:-8:female",
    "face seal -12 male": "orfs:-12:male",
    "ORB -8 port": "orb_un:-8:female",
    "DKOL 15L": "cone24_L:15L:female-o-ring-nose",
    "DKOS 20S": "cone24_S:20S:female-o-ring-nose",
    "24° 12L male": "cone24_L:12L:male",
    "12S 24 deg male": "cone24_S:12S:male",
    "male NPT 1/2": "npt:1/2-NPT:male",
    "ISO 8434-2 -4 male": "flare37:-4:male",
    "keg M12": "metric_taper:M12x1.5-keg:male",
    "test point M16x2 male": "testpoint:M16x2:male",
    # the counter hand hears a customer
    "code 61 1 inch": "flange61:1-in:flange",
    "1 inch code 62": "flange62:1-in:flange",
    'SAE 61 3/4"': "flange61:3/4-in:flange",
    "half inch BSPP flat swivel": "bspp_flat:G1/2:female",
    "banjo eye M14": "banjo_metric:M14x1.5:none-eye",
    "bonded seal M22": "bonded_washer:M22x1.5:none-washer",
    "BSPT 3/4 male ISO 7": "r_taper:R3/4:male",
    # the trainee copies what is written on the drawer
    "flare37 -8 male": "flare37:-8:male",
    "jic male dash 8": "flare37:-8:male",
    "JIC #8 male": "flare37:-8:male",
    "M 22 x 1,5 metric 60° male": "metric60:M22x1.5:male",
    "NPTF female 1/4": "npt:1/4-NPT:female",
}
SEVERAL = {  # phrase: (an end that must be among them, the least and the most ends)
    "1/2 BSP": ({"bspp60:G1/2:male", "r_taper:R1/2:male"}, 8, 30),
    "JIC 8": ({"flare37:-8:male", "flare37:-8:female"}, 2, 2),
    "14S": ({"cone24_S:14S:male"}, 4, 6),
    "M22x1.5": ({"cone24_L:15L:male", "cone24_S:14S:male", "metric60:M22x1.5:male"}, 20, 60),
    "24°": ({"cone24_L:6L:male", "cone24_S:38S:male"}, 100, 300),
    "dash 6": ({"flare37:-6:male", "orfs:-6:male"}, 20, 60),
    "AN 6 male": ({"aerospace_inch:-6:male-flare", "flare37:-6:male"}, 2, 4),
    "SAE flange 1 1/4": ({"flange61:1-1/4-in:flange", "flange62:1-1/4-in:flange"}, 2, 3),
}
UNCLEAR = (  # one end is wanted, several answer
    "half inch", "1/2 BSP", "JIC 8", "14S", "M22x1.5", "banjo", "SAE flange 1 inch", "8 male",
    "24° 15L", "washer", "female -6",
)  # fmt: skip
NOTHING = ("ABC 8", "JIC -7 male", "flare37:-8:mal", "R 1/3 male", "XYZ", "JIC G1/2", "DKOX 15L")


@pytest.mark.parametrize(("phrase", "id_"), ONE.items())
def test_a_phrase_names_one_end(phrase: str, id_: str) -> None:
    assert one_end(knowledge().catalogue, phrase).id == id_


@pytest.mark.parametrize(("phrase", "wanted"), SEVERAL.items())
def test_a_phrase_names_a_set(phrase: str, wanted: tuple[set[str], int, int]) -> None:
    must, least, most = wanted
    found = {end.id for end in understand(knowledge().catalogue, phrase).ends}
    assert must <= found
    assert least <= len(found) <= most


@pytest.mark.parametrize("phrase", UNCLEAR)
def test_an_unclear_phrase_is_refused_with_its_choices(phrase: str) -> None:
    ends = understand(knowledge().catalogue, phrase).ends
    with pytest.raises(UnknownEndError, match=f'"{phrase}" names {len(ends)} ends: ') as refused:
        one_end(knowledge().catalogue, phrase)
    assert ends[0].id in str(refused.value)


@pytest.mark.parametrize("phrase", NOTHING)
def test_what_names_nothing_is_said_with_a_remedy(phrase: str) -> None:
    with pytest.raises(UnknownEndError) as refused:
        understand(knowledge().catalogue, phrase)
    assert "names no end of the tables." in str(refused.value)
    assert any(word in str(refused.value) for word in ("Nearest", "Sizes of", "Say family"))


def test_a_bore_may_be_said_or_stamped_rounded_either_way() -> None:
    names = size_names(knowledge().catalogue.by_id["flare37:-8:female"])
    assert {name_key(f"DN {dn}") for dn in ("12", "12.5", "13")} <= names
    assert name_key("DN 16") not in names


def test_order_of_words_does_not_matter() -> None:
    tables = knowledge().catalogue
    for words in ("JIC -8 male", "-8 JIC male", "male JIC -8", "male -8 JIC"):
        assert [end.id for end in understand(tables, words).ends] == ["flare37:-8:male"]


def test_every_end_is_found_by_its_id_and_by_its_title_and_form() -> None:
    tables = knowledge().catalogue
    for end in tables.ends:
        assert one_end(tables, end.id) is end
        assert end in understand(tables, f"{end.family_name} {end.size} {end.gender}").ends


def test_the_command_prints_what_was_understood(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["find", "JIC", "-8", "male", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {
        "query": "JIC -8 male",
        "understood": {"family": ["flare37"], "size": "-8", "gender": "male"},
        "ends": ["flare37:-8:male"],
    }
    assert main(["find", "1/2", "BSP"]) == 0
    assert "any family, size 1/2 bsp" in capsys.readouterr().out
    assert main(["find", "ABC"]) == 2
    assert "names no end" in capsys.readouterr().err
