"""A page of the handbook read back: its places, its links, and the text of each of its parts."""

from html.parser import HTMLParser

WITHOUT_END = {"meta", "img", "br", "link", "input"}
HEADINGS = {"h1": 1, "h2": 2, "h3": 3, "h4": 4}


class Part:
    """One element: its tag, attributes, the ids and the text within it, its parts and what it is a part of."""

    def __init__(self, tag, attributes, within):
        self.tag, self.attributes, self.within = tag, dict(attributes), within
        self.text, self.parts = "", []

    def all(self, tag):
        """Return every part of this tag within, in order."""
        return [one for part in self.parts for one in ([part] if part.tag == tag else []) + part.all(tag)]

    def of_class(self, name):
        """Return every part of this class within, in order."""
        found = [self] if name in self.attributes.get("class", "").split() else []
        return found + [one for part in self.parts for one in part.of_class(name)]


class Page(HTMLParser):
    """A page as a tree; `ids` and `links` are those of the whole page, in order."""

    def __init__(self, html):
        super().__init__()
        self.root = self.at = Part("", {}, None)
        self.tags, self.ids, self.links = [], [], []
        self.feed(html)
        self.close()
        assert self.at is self.root, f"left open: {self.at.tag}"

    def handle_starttag(self, tag, attributes):
        part = Part(tag, attributes, self.at)
        self.at.parts.append(part)
        self.tags.append(part)
        if "id" in part.attributes:
            self.ids.append(part.attributes["id"])
        if tag == "a":
            self.links.append(part.attributes["href"])
        if tag not in WITHOUT_END:
            self.at = part

    def handle_endtag(self, tag):
        assert self.at.tag == tag, f"{tag} closes {self.at.tag}"
        self.at = self.at.within

    def handle_data(self, data):
        part = self.at
        while part is not None:
            part.text += data
            part = part.within

    def by_id(self, id):
        """Return the part with this id."""
        (found,) = [part for part in self.tags if part.attributes.get("id") == id]
        return found

    def around(self, id, tag):
        """Return the nearest part of this tag around an id."""
        part = self.by_id(id)
        while part.tag != tag:
            part = part.within
        return part
