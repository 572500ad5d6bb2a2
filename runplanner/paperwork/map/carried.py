"""What the map page carries inside itself, and the policy that lets nothing else run.

Leaflet comes out of the installed package ``js_lib_leaflet``; none of it is kept here.
"""

import re
from base64 import b64encode
from functools import cache
from hashlib import sha256
from importlib.resources import files

TILE_HOST = "https://tile.openstreetmap.org"
_SCRIPTS = re.compile(r"<script>(.*?)</script>", re.DOTALL)
_STYLES = re.compile(r"<style>(.*?)</style>", re.DOTALL)
POLICY_MARK = "<!-- policy -->"


@cache
def leaflet_script() -> str:
    """Return Leaflet's script without its pointer to a map file beside it."""
    return re.sub(r"//# sourceMappingURL=\S+", "", _leaflet("leaflet.js")).strip()


@cache
def leaflet_style() -> str:
    """Return Leaflet's style without the pictures it would fetch from beside the page."""
    return re.sub(r"url\([^)]*\)", "none", _leaflet("leaflet.css")).strip()


@cache
def own_text(name: str) -> str:
    """Return one of the map's own script or style files."""
    return _text(files("runplanner.paperwork") / "assets" / name)


def _leaflet(name: str) -> str:
    return _text(files("js_lib_leaflet") / "static" / "js_lib_leaflet" / name)


def _text(path: object) -> str:
    text: str = path.read_text(encoding="utf-8")  # type: ignore[attr-defined]
    return text.replace("\r\n", "\n")


def with_policy(page: str, *, online_tiles: bool) -> str:
    """Return ``page`` with a policy that allows its own scripts and styles and no others."""
    return page.replace(POLICY_MARK, _policy_tag(page, online_tiles=online_tiles), 1)


def _policy_tag(page: str, *, online_tiles: bool) -> str:
    images = f"data: {TILE_HOST}" if online_tiles else "data:"
    rules = (
        "default-src 'none'",
        f"script-src {_marks(_SCRIPTS, page)}",
        f"style-src {_marks(_STYLES, page)}",
        f"img-src {images}",
        "base-uri 'none'",
        "form-action 'none'",
    )
    return f'<meta http-equiv="Content-Security-Policy" content="{"; ".join(rules)}">'


def _marks(kind: re.Pattern[str], page: str) -> str:
    return " ".join(f"'sha256-{_mark(text)}'" for text in kind.findall(page))


def _mark(text: str) -> str:
    return b64encode(sha256(text.encode()).digest()).decode()
