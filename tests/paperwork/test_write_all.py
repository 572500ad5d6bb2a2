"""Tests of the whole folder of papers."""

import io
import re
import sys
import zipfile
from dataclasses import dataclass, replace
from pathlib import Path
from types import ModuleType

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_from_text
from runplanner.paperwork.data.workbook import manifests_xlsx
from runplanner.paperwork.sheet import pdf as pdf_module
from runplanner.paperwork.write_all import papers, write_papers
from tests.paperwork.pages import Page
from tests.paperwork.plans import dear_plan, eight_stop_plan, hostile_plan, small_plan


@dataclass
class Said:
    """Something the audit might say."""

    words: str

    def sentence(self) -> str:
        """Return it."""
        return self.words


def pages(plan: Plan) -> dict[str, str]:
    """Every HTML paper but the map, which has its own tests."""
    return {
        name: text for name, text in papers(plan) if name.endswith(".html") and name != "map.html"
    }


@pytest.mark.parametrize("language", ["en", "de"])
def test_no_line_of_a_paper_ends_between_a_figure_and_its_unit(language: str) -> None:
    """Of kilograms, litres, kilometres, minutes, hours; the map is drawn, not set in lines."""
    torn = re.compile(r"[0-9] (?:kg|L|km|cm|min|h)\b|[0-9]\sh [0-9]{2}\b")
    for plan in (eight_stop_plan(), small_plan()):
        for name, text in papers(plan, language=language):
            if name.endswith(".html") and name != "map.html":
                told = re.sub(r"<style>.*?</style>|<[^>]*>", "", text, flags=re.DOTALL)
                assert not torn.findall(told), name


def test_every_file_is_written_whole(tmp_path: Path) -> None:
    """The list returned is what stands in the folder; the plan can be read back."""
    plan = small_plan()
    written = write_papers(plan, tmp_path / "out")

    standing = sorted(path for path in (tmp_path / "out").rglob("*") if path.is_file())
    assert standing == sorted(written)
    assert all(path.stat().st_size for path in standing)
    assert plan == plan_from_text((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))


def test_the_same_plan_gives_the_same_files() -> None:
    """No clock and no chance in any paper."""
    assert dict(papers(eight_stop_plan())) == dict(papers(eight_stop_plan()))


def test_names_do_not_hang_on_the_order_of_trips() -> None:
    """Shifts listed the other way round give the same names; a trip left out shifts no other."""
    plan = eight_stop_plan()
    names = {name for name, _ in papers(plan)}

    assert names == {name for name, _ in papers(replace(plan, shifts=plan.shifts[::-1]))}
    fewer = {name for name, _ in papers(replace(plan, shifts=plan.shifts[1:]))}
    assert fewer < names
    assert "manifests/0302-truck1-0001.html" in fewer


@pytest.mark.parametrize("plan", [small_plan(), eight_stop_plan(), hostile_plan()])
def test_every_link_leads_to_a_file(tmp_path: Path, plan: Plan) -> None:
    """Links within the papers are all there, and lead nowhere else but to a map app."""
    write_papers(plan, tmp_path)
    for path in tmp_path.rglob("*.html"):
        if path.name == "map.html":
            continue
        for href in Page(path.read_text(encoding="utf-8")).values("href"):
            assert href.startswith("geo:") or (path.parent / href).is_file(), (path, href)


FOR_THE_PLANNER = ("plan.json", "index.html", "tables/costs.csv", "tables/undone.csv")


@pytest.mark.parametrize("language", ["en", "de"])
def test_money_stands_on_no_paper_of_a_crew(language: str) -> None:
    """Not even where work is left for its cost, and what it costs is known."""
    with_money = {name for name, text in papers(dear_plan(), language=language) if "shells" in text}

    assert set(FOR_THE_PLANNER) == with_money
    assert all("41.20" not in t and "41,20" not in t
               for name, t in papers(dear_plan(), language=language)
               if name not in FOR_THE_PLANNER)  # fmt: skip


def test_the_workbook_of_the_crews_has_no_money() -> None:
    """Its sheets are looked through as XML."""
    with zipfile.ZipFile(io.BytesIO(manifests_xlsx(dear_plan()))) as book:
        texts = [book.read(name).decode("utf-8", "replace") for name in book.namelist()]

    assert any("Yard 2" in text for text in texts)
    assert not any("shells" in text for text in texts)


def test_no_paper_asks_for_anything_outside() -> None:
    """No address of the web in any page, nothing that loads, no script."""
    for name, text in pages(eight_stop_plan()).items():
        assert "http" not in text.replace("http-equiv", ""), name
        read = Page(text)
        assert not read.values("src"), name
        assert not {"script", "img", "iframe", "link", "form"} & set(read.tags), name


def test_hostile_words_make_no_element_in_any_paper() -> None:
    """In every page the elements are those that plain words make, handlers there are none."""
    allowed = {tag for text in pages(eight_stop_plan()).values() for tag in Page(text).tags}
    for name, text in pages(hostile_plan()).items():
        read = Page(text)
        assert set(read.tags) <= allowed, name
        assert not [key for key, _ in read.attributes if key.startswith("on")], name
        assert "{{" not in text, name
        assert "${" not in text, name


def test_findings_reach_the_index(tmp_path: Path) -> None:
    """What the audit said stands on the office's page."""
    write_papers(small_plan(), tmp_path, [Said("deck: two boxes too many")])

    assert "deck: two boxes too many" in Page((tmp_path / "index.html").read_text("utf-8")).text


def test_a_missing_printer_is_said_in_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Asked for PDF without WeasyPrint: all papers, no PDF, a sentence on the index."""
    monkeypatch.setattr(pdf_module, "find_spec", lambda _name: None)
    written = write_papers(small_plan(), tmp_path, pdf=True)

    assert not [path for path in written if path.suffix == ".pdf"]
    assert "WeasyPrint is not installed" in Page((tmp_path / "index.html").read_text("utf-8")).text


def test_a_printer_that_cannot_start_is_said_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    """WeasyPrint without its system libraries raises OSError when imported."""

    class Broken:
        """An import hook that fails as the real library does."""

        def find_spec(self, name: str, _path: object = None, _target: object = None) -> None:
            """Fail for WeasyPrint alone."""
            if name == "weasyprint":
                raise OSError("cannot load library 'libpango'")

    monkeypatch.delitem(sys.modules, "weasyprint", raising=False)
    monkeypatch.setattr(pdf_module, "find_spec", lambda _name: object())
    monkeypatch.setattr(sys, "meta_path", [Broken(), *sys.meta_path])

    assert "libpango" in pdf_module.pdf_absence()


def test_manifests_are_printed_where_the_printer_is_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each manifest gets a PDF beside it, made from the very page, and nothing is fetched."""
    seen: list[str] = []

    class Html:
        """Stands in for WeasyPrint: keeps the page and tries to fetch."""

        def __init__(self, string: str, url_fetcher: object) -> None:
            seen.append(string)
            with pytest.raises(ValueError, match="nothing outside itself"):
                url_fetcher("http://example.org/x.css")  # type: ignore[operator]

        def write_pdf(self, pdf_identifier: bytes) -> bytes:
            """Return a mark in place of a PDF."""
            return b"%PDF " + pdf_identifier

    fake = ModuleType("weasyprint")
    fake.HTML = Html  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "weasyprint", fake)
    monkeypatch.setattr(pdf_module, "find_spec", lambda _name: object())

    written = write_papers(small_plan(), tmp_path, pdf=True)
    made = [path for path in written if path.suffix == ".pdf"]

    assert ["0301-truck1-0001.pdf", "0302-truck1-0001.pdf", "0304-truck1-0001.pdf"] == [
        p.name for p in made
    ]
    assert seen == [path.with_suffix(".html").read_text("utf-8") for path in made]
    assert b"%PDF runplanner" == made[0].read_bytes()


def test_the_real_printer_prints() -> None:
    """Where WeasyPrint is installed a manifest is printed, the same bytes twice."""
    pytest.importorskip("weasyprint", reason="no WeasyPrint here: no PDF was tried")
    text = dict(papers(eight_stop_plan()))["manifests/0302-truck1-0001.html"]

    made = pdf_module.pdf_of(text)
    assert made == pdf_module.pdf_of(text)
    assert made.startswith(b"%PDF")
