"""Opens a page in headless Chromium with the network off and notes all it does wrong.

``python -m playwright install`` is never needed: the browser is the system's own.
"""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, ConsoleMessage, Page, Request, Route, sync_playwright

DESK = (1280, 800)
PHONE = (390, 844)


@dataclass
class Visit:
    """An open page, the addresses it asked for, and every complaint made on the way."""

    page: Page
    asked: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)

    def note_request(self, request: Request) -> None:
        """Note an address, unless the page carries the thing inside itself."""
        if not request.url.startswith("data:"):
            self.asked.append(request.url)

    def note_console(self, message: ConsoleMessage) -> None:
        """Note what the console says in earnest."""
        if message.type in {"error", "warning"}:
            self.complaints.append(message.text)


@contextmanager
def a_browser(chromium: str) -> Iterator[Browser]:
    """Start the system's browser; root has no sandbox to start it in."""
    options = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=chromium, args=options)
        try:
            yield browser
        finally:
            browser.close()


@contextmanager
def visit(
    browser: Browser, file: Path, size: tuple[int, int] = DESK, answer_with: bytes = b""
) -> Iterator[Visit]:
    """Open ``file`` with the network off; phones touch, desks point.

    With ``answer_with`` every https address is answered here with that picture.
    """
    phone = size[0] < 600
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]},
        has_touch=phone,
        is_mobile=phone,
        offline=True,
    )
    page = context.new_page()
    seen = Visit(page)
    page.on("request", seen.note_request)
    page.on("console", seen.note_console)
    page.on("pageerror", lambda error: seen.complaints.append(str(error)))
    page.on("dialog", lambda dialog: _refuse(seen, dialog.message, dialog.dismiss))
    if answer_with:
        page.route("https://**/*", lambda route: _answer(route, answer_with))
    page.goto(file.as_uri())
    page.wait_for_timeout(150)
    try:
        yield seen
    finally:
        context.close()


def _answer(route: Route, picture: bytes) -> None:
    route.fulfill(body=picture, content_type="image/png")


def _refuse(seen: Visit, message: str, dismiss: object) -> None:
    """Note a dialog, which no page of ours opens, and close it."""
    seen.complaints.append(f"dialog: {message}")
    if callable(dismiss):
        dismiss()
