"""The printed gauges, read back from the page in millimetres."""

import math
import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from identify.entry import main
from identify.knowledge.loading import load_knowledge
from identify.pages.gauges import CHECK_BAR_MM, combs_of, gauge_page, half_angles_of

SVG = "{http://www.w3.org/2000/svg}"
CATALOGUE = load_knowledge().catalogue
COMBS = combs_of(CATALOGUE.threads.values())
ANGLES = half_angles_of(CATALOGUE.ends)


def sheets(paper: str) -> list[ElementTree.Element]:
    page = gauge_page(COMBS, ANGLES, paper)
    return [ElementTree.fromstring(text) for text in re.findall(r"<svg.*?</svg>", page, re.S)]


def paths(paper: str, name: str) -> list[ElementTree.Element]:
    return [
        p for sheet in sheets(paper) for p in sheet.iter(f"{SVG}path") if p.get("class") == name
    ]


def points(path: ElementTree.Element) -> list[tuple[float, float]]:
    numbers = [float(n) for n in re.findall(r"-?\d+\.\d+", path.get("d", ""))]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


@pytest.mark.parametrize(("paper", "width", "height"), [("a4", 210, 297), ("letter", 215.9, 279.4)])
def test_one_unit_is_one_millimetre_of_paper(paper: str, width: float, height: float) -> None:
    # ISO 216 A4 is 210 x 297 mm; letter is 8 1/2 x 11 in.
    for sheet in sheets(paper):
        assert sheet.get("width") == f"{width:g}mm"
        assert sheet.get("height") == f"{height:g}mm"
        assert sheet.get("viewBox") == f"0 0 {width:g} {height:g}"


def test_every_sheet_has_two_check_bars_of_50_mm_and_says_to_check_them() -> None:
    for sheet in sheets("a4"):
        bars = [p.get("d", "") for p in sheet.iter(f"{SVG}path") if p.get("class") == "check"]
        across = re.fullmatch(r"M([\d.]+) [\d.]+H([\d.]+)", bars[0])
        up = re.fullmatch(r"M[\d.]+ ([\d.]+)V([\d.]+)", bars[1])
        assert across is not None
        assert up is not None
        assert float(across[2]) - float(across[1]) == pytest.approx(CHECK_BAR_MM)
        assert float(up[2]) - float(up[1]) == pytest.approx(CHECK_BAR_MM)
        words = " ".join(text.text or "" for text in sheet.iter(f"{SVG}text"))
        assert "Before use lay a rule or caliper on BOTH bars" in words


def test_there_is_a_comb_for_every_pitch_and_flank_angle_of_the_tables() -> None:
    wanted = {(round(t.pitch_mm, 4), t.flank_angle_deg) for t in CATALOGUE.threads.values()}
    drawn = {
        (float(p.get("data-pitch-mm", 0)), float(p.get("data-flank-deg", 0)))
        for p in paths("a4", "comb")
    }
    assert drawn == wanted
    assert (1.8143, 55.0) in drawn  # G 1/2, 14 tpi: ISO 228-1
    assert (1.8143, 60.0) in drawn  # 1/2 NPT, 14 tpi: ASME B1.20.1


def test_teeth_stand_a_pitch_apart_and_their_flanks_have_the_angle() -> None:
    for path in paths("letter", "comb"):
        chain = points(path)
        highest = min(y for _, y in chain)
        crests = [x for x, y in chain if y == highest]
        middles = [(a + b) / 2 for a, b in zip(crests[::2], crests[1::2], strict=True)]
        pitch = float(path.get("data-pitch-mm", 0))
        assert len(middles) >= 10
        for first, second in pairwise(middles):
            assert second - first == pytest.approx(pitch, abs=2e-4)
        (x1, y1), (x2, y2) = chain[1], chain[2]  # first flank, rising
        flank = 2 * math.degrees(math.atan2(x2 - x1, y1 - y2))
        assert flank == pytest.approx(float(path.get("data-flank-deg", 0)), abs=0.1)


@pytest.mark.parametrize("name", ["cone", "cup"])
def test_there_is_a_silhouette_of_every_half_angle_and_it_has_that_angle(name: str) -> None:
    drawn = paths("a4", name)
    assert [float(p.get("data-half-deg", 0)) for p in drawn] == list(ANGLES)
    assert {12, 30, 37, 45} <= set(ANGLES)
    for path in drawn:
        chain = points(path)
        (x1, y1), (x2, y2) = (chain[1], chain[2])
        read = math.degrees(math.atan2(abs(x2 - x1), abs(y2 - y1)))
        assert read == pytest.approx(float(path.get("data-half-deg", 0)), abs=0.01)


def test_every_silhouette_is_labelled_half_and_included() -> None:
    words = [t.text for s in sheets("a4") for t in s.iter(f"{SVG}text")]
    for angle in ANGLES:
        assert words.count(f"cone {angle:g}° half") == 1
        assert words.count(f"cup {angle:g}° half") == 1
        assert words.count(f"{2 * angle:g}° included") == 2


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_nothing_leaves_the_paper_and_no_figure_covers_another(paper: str) -> None:
    for sheet in sheets(paper):
        _, _, width, height = (float(n) for n in sheet.get("viewBox", "").split())
        boxes = []
        for group in sheet.iter(f"{SVG}g"):
            moved = re.findall(r"[\d.]+", group.get("transform", ""))
            if not moved:
                continue
            left, top = map(float, moved)
            chain = points(next(iter(group.iter(f"{SVG}path"))))
            boxes.append(
                (left, top, left + max(x for x, _ in chain), top + max(y for _, y in chain))
            )
        for number, (x1, y1, x2, y2) in enumerate(boxes):
            assert x1 >= 0
            assert y1 >= 62  # below the header with its 50 mm bar
            assert x2 <= width
            assert y2 <= height
            for a1, b1, a2, b2 in boxes[number + 1 :]:
                assert x2 <= a1 or a2 <= x1 or y2 <= b1 or b2 <= y1


def test_the_page_refers_to_nothing_outside_itself() -> None:
    page = gauge_page(COMBS, ANGLES)
    assert set(re.findall(r"https?://[^\"' ]+", page)) == {"http://www.w3.org/2000/svg"}
    assert "<script" not in page
    assert "url(" not in page


def test_the_command_writes_the_page_and_says_what_to_check(tmp_path, capsys) -> None:
    target = tmp_path / "page.html"
    assert main(["gauges", "--paper", "letter", "--output", str(target)]) == 0
    assert target.read_text(encoding="utf-8") == gauge_page(COMBS, ANGLES, "letter")
    assert "measure both check bars (50.0 mm) before use" in capsys.readouterr().out


def test_the_command_can_write_to_standard_output(capsys) -> None:
    assert main(["gauges", "--output", "-"]) == 0
    assert capsys.readouterr().out == gauge_page(COMBS, ANGLES, "a4")


def test_a_file_that_cannot_be_written_is_named_with_the_remedy(tmp_path, capsys) -> None:
    assert main(["gauges", "--output", str(tmp_path / "no" / "such" / "page.html")]) == 2
    said = capsys.readouterr().err
    assert "page.html cannot be written" in said
    assert "Name another file with --output" in said
