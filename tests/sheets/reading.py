"""Reads a sheet's HTML the way a browser would: elements, and what a form would send."""

from html.parser import HTMLParser

VOID = {"input", "br", "img", "meta", "link", "hr"}


class Element:
    """One element with its attributes, children and text."""

    def __init__(self, tag: str, attributes: dict[str, str | None], parent: "Element | None") -> None:
        self.tag, self.attributes, self.parent = tag, attributes, parent
        self.content: list[str | Element] = []

    @property
    def children(self) -> "list[Element]":
        return [c for c in self.content if isinstance(c, Element)]

    def get(self, name: str) -> str | None:
        return self.attributes.get(name)

    def has(self, name: str) -> bool:
        return name in self.attributes

    def all(self, tag: str = "") -> "list[Element]":
        """All elements below with this tag, in order."""
        found = []
        for child in self.children:
            if not tag or child.tag == tag:
                found.append(child)
            found += child.all(tag)
        return found

    def by_id(self, id_: str) -> "Element":
        return next(e for e in self.all() if e.get("id") == id_)

    def of_class(self, name: str) -> "list[Element]":
        return [e for e in self.all() if name in (e.get("class") or "").split()]

    @property
    def text(self) -> str:
        """The element's own words."""
        return " ".join(" ".join(c for c in self.content if isinstance(c, str)).split())

    @property
    def whole_text(self) -> str:
        """Its words and those of all elements in it, in order."""
        return " ".join(" ".join(c if isinstance(c, str) else c.whole_text for c in self.content).split())


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.root = self.now = Element("", {}, None)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, dict(attrs), self.now)
        self.now.content.append(element)
        if tag not in VOID:
            self.now = element

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.now.content.append(Element(tag, dict(attrs), self.now))

    def handle_endtag(self, tag: str) -> None:
        assert self.now.tag == tag, f"</{tag}> closes <{self.now.tag} id={self.now.get('id')}>"
        assert self.now.parent is not None
        self.now = self.now.parent

    def handle_data(self, data: str) -> None:
        self.now.content.append(data)


def read_html(text: str) -> Element:
    """The tree of a text; an assertion fails where tags do not match."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    assert reader.now is reader.root, f"<{reader.now.tag}> is never closed"
    return reader.root


def entries(form: Element) -> list[tuple[str, str]]:
    """What a browser sends for the form as it stands, without pressing a button."""
    sent = []
    for e in form.all():
        name = e.get("name")
        if not name or e.has("disabled"):
            continue
        if e.tag == "input":
            if e.get("type") in ("checkbox", "radio") and not e.has("checked"):
                continue
            sent.append((name, e.get("value") or ""))
        elif e.tag == "select":
            chosen = [o for o in e.all("option") if o.has("selected")]
            sent.append((name, (chosen or e.all("option"))[0].get("value") or ""))
    return sent
