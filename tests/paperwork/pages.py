"""Reading pages back the way a browser would."""

from html.parser import HTMLParser


class Page(HTMLParser):
    """The words and elements of a page; what stands in style is left out.

    Args:
        source: The page as HTML.
    """

    def __init__(self, source: str) -> None:
        super().__init__(convert_charrefs=True)
        self.words: list[str] = []
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str]] = []
        self.css = ""
        self._in_style = False
        self.feed(source)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep an element and its attributes."""
        self._in_style = tag == "style"
        self.tags.append(tag)
        self.attributes += [(name, value or "") for name, value in attrs]

    def handle_endtag(self, tag: str) -> None:
        """Leave the style sheet."""
        self._in_style = self._in_style and tag != "style"

    def handle_data(self, data: str) -> None:
        """Keep words, or the style sheet."""
        if self._in_style:
            self.css += data
        elif data.strip():
            self.words.append(data)

    @property
    def text(self) -> str:
        """All words, single blanks between."""
        return " ".join(" ".join(self.words).split())

    def values(self, name: str) -> list[str]:
        """Every value of one attribute."""
        return [value for key, value in self.attributes if key == name]
