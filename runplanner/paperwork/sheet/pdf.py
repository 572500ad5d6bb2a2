"""A page printed to PDF, where WeasyPrint is installed; it fetches nothing."""

from importlib.util import find_spec

from runplanner.paperwork.speech.tongue import mark, tr

ABSENT = mark(
    "PDF was asked for, but WeasyPrint is not installed: print the pages from a browser, or "
    "install runplanner with its pdf extra."
)


def pdf_absence() -> str:
    """Return in words why no PDF can be made; empty when it can."""
    if find_spec("weasyprint") is None:
        return tr(ABSENT)
    try:
        import weasyprint  # noqa: F401
    except OSError as error:
        # The system's text libraries are missing; WeasyPrint finds out when imported.
        why = str(error)[:120]
        return tr("PDF was asked for, but WeasyPrint cannot start here: {why}", why=why)
    return ""


def pdf_of(page: str) -> bytes:
    """Return ``page`` as PDF, the same bytes for the same page."""
    from weasyprint import HTML

    made = HTML(string=page, url_fetcher=_refuse).write_pdf(pdf_identifier=b"runplanner")
    return bytes(made)


def _refuse(url: str, *_args: object, **_named: object) -> dict[str, object]:
    """Fetch nothing: a paper holds all it needs."""
    message = f"a paper asks for nothing outside itself, so not for {url[:80]}"
    raise ValueError(message)
