"""What is said in words, and the SVG read as XML."""

import re
import subprocess
import sys
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.drawing.ends import Sort, half_section, sort_of
from identify.drawing.outline import NOT_TO_SCALE
from identify.drawing.seat_detail import seat_detail
from identify.drawing.seat_words import main_seat, seat_words
from identify.drawing.svg import svg
from identify.model.connection import Shape
from identify.model.feature import FEATURES, Feature
from identify.reading.names import one_end
from tests.drawing.parts import CATALOGUE, GOLDEN_ENDS, part, sheet_of

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize(
    ("name", "sort"),
    [
        ("flare37:-8:male", Sort.MALE),
        ("cone24_L:12L:female-o-ring-nose", Sort.SWIVEL),
        ("orb_un:-8:female", Sort.PORT),
        ("npt:1/2-NPT:female", Sort.PORT),
        ("inverted45:-6:female", Sort.PORT),
        ("testpoint:M16x2:female", Sort.SWIVEL),  # a nut, though it has no seat
        ("trailer_brake_hyd:M18x1.5:female", Sort.SWIVEL),  # one piece, but no hole in a block
        ("staple:DN-13:female", Sort.SOCKET),
        ("flange61:1-in:flange", Sort.FLANGE),
        ("staple:DN-13:male", Sort.PLUG),
        ("banjo_metric:M14x1.5:none-eye", Sort.BANJO),
        ("bonded_washer:G1/2:none-washer", Sort.WASHER),
    ],
)
def test_each_sort_of_end_gets_its_own_picture(name: str, sort: Sort) -> None:
    assert sort_of(part(name)[0]) is sort


def test_words_name_the_part_its_seat_and_every_figure_of_the_picture() -> None:
    for name, ask in GOLDEN_ENDS.values():
        sheet = sheet_of(name, ask)
        words = sheet.described
        assert one_end(CATALOGUE, name).title in words
        assert NOT_TO_SCALE in words
        for item in sheet.labelled:
            for figure in re.findall(r"\d[\d.]*", item.label):
                assert figure in words


def test_only_a_taper_thread_is_said_to_seal() -> None:
    for end in CATALOGUE.ends:
        said = "seals on the thread" in seat_words(end)
        assert said is (end.sealing == "thread_taper" and main_seat(end).shape is Shape.NONE)
    assert seat_words(part("testpoint:M16x2:male")[0]) == "There is no seat."


def test_an_end_without_what_is_asked_says_so() -> None:
    assert "shows no outside diameter over the thread crests" in (
        sheet_of("flange61:1-in:flange", Feature.THREAD_OD).described
    )


def test_the_tables_figure_is_not_told_to_one_who_is_to_measure() -> None:
    end, _ = part("flange61:1-in:flange")
    words = sheet_of("flange61:1-in:flange", Feature.FLANGE_HEAD_OD).described
    assert f"{end.sizes.get(Feature.FLANGE_HEAD_OD):g}" not in words
    assert "Head OD is to be measured." in words


def test_what_tells_two_apart_stands_in_the_words_of_their_overlay() -> None:
    told = ("Seat angle: 37 deg half against 45 deg half.",)
    sheet = seat_detail(*part("flare37:-8:male"), *part("flare45:-8:male"), told)
    assert told[0] in sheet.words


@given(
    st.sampled_from(CATALOGUE.ends),
    st.sampled_from([None, *FEATURES]),
    st.sampled_from([0.5, 1, 2]),
)
@settings(max_examples=150, deadline=None, derandomize=True)
def test_svg_is_xml_in_millimetres_with_title_and_description(end, ask, scale) -> None:
    sheet = half_section(end, CATALOGUE.thread_of(end), ask)
    text = svg(sheet, scale)
    root = ElementTree.fromstring(text)
    _, _, width, height = (float(n) for n in root.get("viewBox", "").split())
    assert root.get("width") == f"{width:g}mm"
    assert root.get("height") == f"{height:g}mm"
    assert root.findtext(f"{SVG}title") == sheet.title
    assert root.findtext(f"{SVG}desc") == sheet.described
    assert set(re.findall(r"https?://[^\"' ]+", text)) == {"http://www.w3.org/2000/svg"}
    boxes = []
    for element in root.iter(f"{SVG}text"):
        left, base = float(element.get("x", 0)), float(element.get("y", 0))
        long = float(element.get("textLength", 1.5 * len(element.text or "")))
        assert left >= -1e-6
        assert left + long <= width + 1e-6
        assert 0 < base < height
        boxes.append((left, base - 2.5, left + long, base))
    for number, (a, b, c, d) in enumerate(boxes):
        for e, f, g, h in boxes[number + 1 :]:
            assert c <= e + 1e-6 or g <= a + 1e-6 or d <= f or h <= b


@pytest.mark.parametrize("scale", [1, 2])
def test_svg_is_to_scale(scale: int) -> None:
    end, _ = part("flange61:1-in:flange")
    sheet = sheet_of("flange61:1-in:flange", Feature.FLANGE_HEAD_OD)
    root = ElementTree.fromstring(svg(sheet, scale))
    circles = [p.get("d", "") for p in root.iter(f"{SVG}path") if p.get("class") == "outline"]
    across = []
    for path in circles:
        numbers = [float(n) for n in re.findall(r"-?\d+\.\d+", path)]
        across.append(max(numbers[::2]) - min(numbers[::2]))
    head = end.sizes[Feature.FLANGE_HEAD_OD] * scale
    assert any(each == pytest.approx(head, abs=0.01) for each in across)
    bar = next(p for p in root.iter(f"{SVG}path") if p.get("class") == "scale").get("d", "")
    left, _, right, _ = (float(n) for n in re.findall(r"\d+\.\d+", bar)[:4])
    words = [t.text or "" for t in root.iter(f"{SVG}text")][-1]
    length = float(words.split()[0])
    assert right - left == pytest.approx(length * scale)
    assert words.endswith(f"scale {scale}:1")


def test_svg_of_a_comparison_is_xml_too() -> None:
    told = ("8 deg apart & more.",)
    sheet = seat_detail(*part("flare37:-8:male"), *part("flare45:-8:male"), told)
    root = ElementTree.fromstring(svg(sheet, 4))
    assert told[0] in (root.findtext(f"{SVG}desc") or "")


def test_drawing_loads_no_screen_library_and_no_file_format() -> None:
    code = (
        "import sys, identify.drawing.render, identify.drawing.svg, identify.drawing.seat_detail;"
        "print(sorted({'textual', 'rich', 'yaml', 'pint', 'sqlite3'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
