"""Faulty thread tables: each fault is reported with its file and line, all of them at once."""

import pytest

from identify.knowledge.fields import Faults
from identify.knowledge.thread_tables import read_threads
from identify.model.source import Support
from identify.model.thread import Thread

HEAD = """\
schema: thread_table/1
system: {system}
note: "test"
provenance: {{source: somebody, where: "table 1", basis: computed}}
sizes:
"""
FIRST_ROW = HEAD.count("\n") + 1


def read(system: str, *rows: str) -> tuple[list[Thread], list[str]]:
    faults = Faults()
    text = HEAD.format(system=system) + "".join(f"  - {{{row}}}\n" for row in rows)
    return read_threads(text, "t.yaml", faults), faults.found


M12 = 'designation: "M12x1.5", major: "12 mm", pitch: "1.5 mm"'
UNF = 'designation: "7/16-20 UNF", major: "7/16 in", tpi: 20'
G = 'designation: "G 1/4", major: "13.157 mm", tpi: 19'
ISO7 = 'designation: "R 1/4", major: "13.157 mm", tpi: 19, gauge_length: "6.01 mm", '
ISO7 += 'beyond_gauge: "3.7 mm"'
KEG = 'designation: "M12x1.5 keg", major: "12 mm", pitch: "1.5 mm", gauge_length: "3.5 mm", '
KEG += 'useful_length: "12 mm"'


@pytest.mark.parametrize(
    ("system", "row"), [("M", M12), ("UN", UNF), ("G", G), ("ISO7", ISO7), ("M-TAPER", KEG)]
)
def test_sound_rows_load_without_a_fault(system: str, row: str):
    threads, faults = read(system, row)
    assert not faults
    assert [thread.system for thread in threads] == [system]
    said = threads[0].provenance
    assert (said.source, said.basis, said.file) == ("somebody", Support.COMPUTED, "t.yaml")
    assert said.line == FIRST_ROW


@pytest.mark.parametrize(
    ("system", "row", "fault"),
    [
        ("M", M12.replace("12 mm", "13 mm"), "major is 13.0000 mm, but the designation"),
        ("M", M12.replace('"12 mm"', "12"), "major is 12, a number without a unit"),
        ("M", M12.replace("12 mm", "12"), "major cannot be read"),
        ("M", M12.replace("12 mm", "11..12 mm"), "major is a span"),
        ("M", M12.replace('"1.5 mm"', '"2 mm"'), "pitch is 2 mm, but the designation"),
        ("M", M12 + ", tpi: 20", "tpi is not a known field"),
        ("M", 'designation: "M12x1.5", major: "12 mm"', "pitch is missing"),
        ("M", M12.replace("M12x1.5", "12 x 1.5"), "is not a thread designation"),
        ("M", M12.replace("M12x1.5", "M12x1.5 keg"), "is no thread of system M"),
        ("M", 'designation: "M400x2", major: "400 mm", pitch: "2 mm"', "outside ISO 965-1"),
        ("UN", UNF.replace("20,", "18,").replace("tpi: 20", "tpi: 18"), "tpi is 18, but"),
        ("UN", UNF.replace("7/16 in", "7/16 mm"), "major is 0.4375 mm, but the designation"),
        ("UN", UNF.replace("tpi: 20", "tpi: 200"), "tpi is 200, outside 4..80"),
        ("UN", 'designation: "1/8-40 UNC", major: "1/8 in", tpi: 40', "hold from 1/4 in"),
        ("G", G.replace("tpi: 19", "tpi: 18"), "18 tpi is not a pipe thread"),
        (
            "NPSM",
            'designation: "1/8-27 NPSM", tpi: 27, pitch_diameter: "0.3736 in"',
            "limits is miss",
        ),
        ("M-TAPER", KEG.replace("1.5", "2"), "no DIN 158 limits are known for pitch 2 mm"),
        ("M", M12 + ', overrides: {internal_crest_max: "10.7 mm"}', "source is missing"),
        ("M", M12 + ', overrides: {crest: "10.7 mm"}', "crest is not a known field"),
        (
            "M",
            M12 + ', overrides: {internal_crest_max: "10 mm"}, '
            "override_source: {source: x, basis: printed}",
            "limits reversed",
        ),
        (
            "M-TAPER",
            KEG + ', overrides: {internal_crest_max: "10 mm"}, '
            "override_source: {source: x, basis: printed}",
            "which M12x1.5 keg lacks",
        ),
    ],
)
def test_a_faulty_row_names_file_line_and_fault(system: str, row: str, fault: str):
    _, faults = read(system, row)
    assert any(each.startswith(f"t.yaml:{FIRST_ROW}: ") and fault in each for each in faults), (
        faults
    )


def test_all_faults_of_a_table_come_at_once():
    bad = M12.replace("12 mm", "13 mm")
    _, faults = read("M", bad, M12.replace("1.5 mm", "1,5"), M12.replace("M12", "N12"))
    assert {fault.split(":")[1] for fault in faults} == {str(FIRST_ROW + n) for n in range(3)}


def test_a_designation_stands_once():
    threads, faults = read("M", M12, M12)
    assert len(threads) == 1
    assert faults == [
        f't.yaml:{FIRST_ROW + 1}: size "M12x1.5": designation "M12x1.5" stands twice; remove one.'
    ]


def test_printed_values_overrule_the_formula():
    row = M12 + ', overrides: {internal_crest_max: "10.7 mm"}, '
    row += "override_source: {source: chart, basis: printed}"
    (computed,), _ = read("M", M12)
    (overruled,), faults = read("M", row)
    assert not faults
    assert computed.internal
    assert overruled.internal
    assert overruled.internal.crest.high_mm == 10.7
    assert overruled.internal.crest.low_mm == computed.internal.crest.low_mm
    assert overruled.internal.pitch == computed.internal.pitch
    assert overruled.external == computed.external
    assert "internal crest max as printed in chart" in overruled.provenance.checked_note


def test_a_row_speaks_for_its_own_support():
    row = M12 + ', checked_against: [chart], caveat: "beware", '
    row += "provenance: {source: else, where: here, basis: from-memory}"
    (thread,), faults = read("M", row)
    assert not faults
    said = thread.provenance
    assert (said.source, said.where, said.basis) == ("else", "here", Support.FROM_MEMORY)
    assert (said.checked_against, said.caveat) == (("chart",), "beware")


def test_cited_keys_are_handed_on_for_checking():
    faults = Faults()
    text = HEAD.format(system="M") + f"  - {{{M12}, checked_against: [chart]}}\n"
    read_threads(text, "t.yaml", faults)
    assert {source for *_, source in faults.citations} == {"somebody", "chart"}


def test_no_source_no_row_without_a_fault():
    faults = Faults()
    text = "schema: thread_table/1\nsystem: M\nnote: x\nsizes:\n" + f"  - {{{M12}}}\n"
    read_threads(text, "t.yaml", faults)
    assert any("has no source" in fault for fault in faults.found)


def test_support_of_a_sister_system_stands_in_the_head():
    text = HEAD.format(system="NPT").replace(
        "sizes:", 'provenance_of:\n  NPTF: {basis: from-memory, caveat: "alike"}\nsizes:'
    )
    text += '  - {designation: "1/8-27 NPT", also: ["1/8-27 NPTF"], major: "0.405 in", tpi: 27, '
    text += 'gauge_length: "0.1615 in"}\n'
    faults = Faults()
    general, dryseal = read_threads(text, "t.yaml", faults)
    assert not faults.found
    assert general.provenance.basis is Support.COMPUTED
    assert dryseal.provenance.basis is Support.FROM_MEMORY
    assert (dryseal.provenance.caveat, dryseal.provenance.source) == ("alike", "somebody")


@pytest.mark.parametrize("text", ["a: [1", "- 1\n", "schema: thread_table/1\nschema: x\n"])
def test_unreadable_yaml_is_a_fault_not_a_crash(text: str):
    faults = Faults()
    assert read_threads(text, "t.yaml", faults) == []
    assert faults.found[0].startswith("t.yaml:")


def test_lengths_are_exact_in_every_unit():
    for length in ("1 1/16 in", "26.9875 mm", "2.69875 cm", "1.0625 inch"):
        row = f'designation: "1 1/16-12 UN", major: "{length}", tpi: 12'
        (thread,), faults = read("UN", row)
        assert not faults
        assert thread.major_mm == pytest.approx(26.9875, abs=1e-12)
