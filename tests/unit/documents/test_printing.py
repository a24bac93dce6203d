"""Facts of the PDF itself: what the standard asks of a tagged file, fonts, pages, words.

The list of facts: the machine-checkable clauses of ISO 14289-1:2014 (PDF/UA-1) as the public
veraPDF profile names them (read second-hand; the standard's own text was not opened).
"""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO
from itertools import pairwise

import pikepdf
import pytest

from tapeline.activities.loader import load_library
from tapeline.documents.packet import RunPart, TallyActivity, Who
from tapeline.documents.printing import print_packet
from tapeline.errors import InputError
from tapeline.sessions.packet.whole import packet_for
from tests.unit.sessions.packet_world import (
    FOIL,
    NAMES,
    TOSS_NAME,
    TOSS_NAME_ES,
    a_packet_plan,
    a_world,
)

A4, LETTER = (595, 842), (612, 792)


FIRST_CARD = load_library().activities["arrive_spot"].name


@pytest.fixture(scope="module")
def packet():
    caseload = a_world()
    return packet_for(a_packet_plan(caseload, drift={"c3": FOIL}), caseload)


@pytest.fixture(scope="module")
def printed(packet) -> bytes:
    return print_packet(packet)


@pytest.fixture(scope="module")
def pdf(printed):
    with pikepdf.open(BytesIO(printed)) as opened:
        yield opened


@pytest.fixture(scope="module")
def pages(printed, tmp_path_factory) -> list[str]:
    """The words of each page, as poppler reads them."""
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext was not found. Install poppler-utils.")
    path = tmp_path_factory.mktemp("pdf") / "packet.pdf"
    path.write_bytes(printed)
    found = subprocess.run(["pdftotext", str(path), "-"], check=True, capture_output=True)
    return [" ".join(page.split()) for page in found.stdout.decode().split("\f")[:-1]]


def elements(node) -> Iterator[pikepdf.Object]:
    """Every structure element, in reading order."""
    for child in _children(node):
        if isinstance(child, pikepdf.Dictionary) and "/S" in child:
            yield child
            yield from elements(child)


def _children(node):
    kids = node.get("/K", pikepdf.Array())
    return list(kids) if isinstance(kids, pikepdf.Array) else [kids]


def of_role(pdf, *roles):
    return [one for one in elements(pdf.Root.StructTreeRoot) if str(one.S)[1:] in roles]


# ---- tagged


def test_the_file_says_that_it_is_pdf_ua_1(pdf):
    with pdf.open_metadata() as metadata:
        assert metadata["pdfuaid:part"] == "1"
        assert metadata["dc:title"] == "Tuesday group, Tuesday 10 March 2026"
    assert pdf.pdf_version.startswith("1.")


def test_it_is_marked_titled_and_in_a_language(pdf):
    assert pdf.Root.MarkInfo.Marked
    assert str(pdf.Root.Lang) == "en"
    assert pdf.Root.ViewerPreferences.DisplayDocTitle
    assert len(of_role(pdf, "P")) > 20


def test_every_picture_is_described(pdf):
    figures = of_role(pdf, "Figure")
    assert figures
    assert all(str(figure.get("/Alt", "")).strip() for figure in figures)


def test_tables_have_header_cells_over_their_columns(pdf):
    tables = of_role(pdf, "Table")
    assert len(tables) >= 5
    for table in tables:
        cells = [one for one in elements(table) if str(one.S) == "/TH"]
        assert len(cells) >= 2


def test_headings_never_skip_a_level(pdf):
    levels = [int(str(one.S)[2:]) for one in of_role(pdf, "H1", "H2", "H3", "H4")]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_spanish_words_are_tagged_as_spanish(pdf):
    tagged = {str(one.Lang) for one in elements(pdf.Root.StructTreeRoot) if "/Lang" in one} | {
        str(one.A.Lang)
        for one in elements(pdf.Root.StructTreeRoot)
        if isinstance(one.get("/A"), pikepdf.Dictionary) and "/Lang" in one.A
    }
    assert "es" in tagged


def test_all_letters_are_of_the_bundled_font_embedded_and_readable(pdf):
    names = set()
    for page in pdf.pages:
        for font in page.Resources.get("/Font", {}).values():
            names.add(str(font.BaseFont).split("+")[-1])
            assert "/ToUnicode" in font
            (inner,) = font.DescendantFonts
            assert "/FontFile2" in inner.FontDescriptor or "/FontFile3" in inner.FontDescriptor
    assert names
    assert all(name.startswith("AtkinsonHyperlegibleNext") for name in names)


# ---- paper


@pytest.mark.parametrize(("paper", "size"), [("a4", A4), ("letter", LETTER)])
def test_paper_is_the_size_she_chose(packet, paper, size):
    with pikepdf.open(BytesIO(print_packet(replace(packet, paper=paper)))) as opened:
        for page in opened.pages:
            assert tuple(round(float(side)) for side in page.mediabox[2:]) == size


def test_the_same_packet_gives_the_same_bytes(packet, printed):
    assert print_packet(packet) == printed


def test_a_real_caseload_is_nowhere_called_invented(pages):
    assert all("Invented children" not in page for page in pages)


def test_every_page_of_an_invented_caseload_says_so():
    caseload = replace(a_world(), invented=True)
    made = print_packet(packet_for(a_packet_plan(caseload), caseload))
    for page in words_by_page(made):
        assert "Invented children" in page or "Niños inventados" in page


def words_by_page(made: bytes) -> list[str]:
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext was not found. Install poppler-utils.")
    found = subprocess.run(["pdftotext", "-", "-"], input=made, check=True, capture_output=True)
    return [" ".join(page.split()) for page in found.stdout.decode().split("\f")[:-1]]


# ---- words


def test_pages_come_in_their_order(pages):
    titles = [
        "Tuesday group",
        "Have ready and check",
        "Today at home",
        "Esta semana en casa",
        FIRST_CARD,
        "Tally sheet",
        "When to stop, and what to do",
        "Cuándo parar y qué hacer",
        "Release list",
        "What to say in the film",
        "Qué se dice en el video",
        "Shot list",
        "Captions (en), times to be filled in",
    ]
    at = [next(n for n, page in enumerate(pages) if page.startswith(title)) for title in titles]
    assert at == sorted(at)


def test_no_name_is_printed_on_a_page_for_a_home_or_a_wall(pages):
    first = next(n for n, page in enumerate(pages) if page.startswith("Today at home"))
    last = next(n for n, page in enumerate(pages) if page.startswith("Release list"))
    assert last - first >= 6
    for page in pages[first:last]:
        assert not [name for name in NAMES if name in page]
    assert all(name in pages[0] for name in NAMES)


def test_the_games_stand_on_paper_in_the_language_of_the_home(pages):
    english = next(page for page in pages if page.startswith("Today at home"))
    spanish = next(page for page in pages if page.startswith("Esta semana en casa"))
    assert TOSS_NAME in english
    assert TOSS_NAME_ES in spanish
    assert "Una persona tiene que leer todavía esta hoja." in spanish


def test_the_balloon_caution_is_printed_whole(pages):
    """16 CFR 1500.19(b)(2), as in ONIX code list 143 value 02."""
    whole = (
        "CHOKING HAZARD—Children under 8 yrs. can choke or suffocate on uninflated or broken "
        "balloons. Adult supervision required. Keep uninflated balloons from children. Discard "
        "broken balloons at once."
    )
    with_caution = [page.split(".")[0][:13] for page in pages if whole in page]
    assert with_caution == ["Have ready an", "Today at home"]


def test_the_running_order_stays_on_one_page_however_much_is_played(packet):
    part = packet.running.parts[1]
    does = tuple(
        replace(part.does[0], who=(Who(mark="boat", name=f"Child {n}", tags=("New", "Check")),))
        for n in range(8)
    )
    parts: tuple[RunPart, ...] = (replace(part, does=does),) * 11
    long = replace(packet, running=replace(packet.running, parts=parts))
    made = words_by_page(print_packet(long))
    assert made[0].count("Child 7") == 11
    assert made[1].startswith("Have ready and check")


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_home_with_many_games_still_gets_two_pages(packet, paper):
    family = packet.families[1]
    games = (*family.activities[:1] * 4, *family.activities[1:2] * 7)
    full = replace(packet, families=(replace(family, activities=games),), paper=paper)
    made = words_by_page(print_packet(full))
    first = next(n for n, page in enumerate(made) if page.startswith("Esta semana en casa"))
    after = next(n for n, page in enumerate(made) if page.startswith(FIRST_CARD))
    assert after - first == 2


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_tally_of_six_children_at_seven_games_is_one_page(packet, paper):
    marks = ("boat", "kite", "fish", "moon", "leaf", "drop")
    game = TallyActivity(tape="balance", name="Wet paint", rows=tuple((m, 20) for m in marks))
    tally = replace(packet.tally, activities=(game,) * 7)
    made = words_by_page(print_packet(replace(packet, tally=tally, paper=paper)))
    sheet = next(n for n, page in enumerate(made) if page.startswith("Tally sheet"))
    assert made[sheet].count("not seen") == 42
    assert made[sheet + 1].startswith("When to stop")


@pytest.mark.parametrize(
    ("name", "letter"), [("\U0001f600 Max", "\U0001f600"), ("\u738b", "\u738b")]
)
def test_a_letter_the_font_does_not_have_is_one_clear_sentence(packet, name, letter):
    with pytest.raises(InputError, match=letter) as caught:
        print_packet(replace(packet, group=name))
    assert "Latin letters" in caught.value.hint


@pytest.mark.parametrize("name", ["\u015eule \u011e", "\u0141ukasz", "\u0410\u043d\u044f"])
def test_letters_of_many_languages_are_printed(packet, name):
    printed = print_packet(replace(packet, group=name))
    assert len(pikepdf.open(BytesIO(printed)).pages) > 1
