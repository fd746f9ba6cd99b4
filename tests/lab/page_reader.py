"""What a browser would make of a report: its tags, its headings, its tables."""

from html.parser import HTMLParser

from turbomath.paper.unbroken import NO_BREAK

WITHOUT_END = {"meta", "img", "br"}


class Report(HTMLParser):
    """A report read back from its HTML.

    `tags` holds (tag, attributes), `headings` (level, text), `tables` a dict of caption, heads and rows each. A space
    that holds a number to its unit is read as any other.
    """

    def __init__(self, html):
        super().__init__()
        self.tags, self.headings, self.tables, self.open, self.text = [], [], [], [], ""
        self.feed(html)
        self.close()
        assert not self.open, f"left open: {self.open}"

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, dict(attributes)))
        if tag not in WITHOUT_END:
            self.open.append(tag)
        if tag == "table":
            self.tables.append({"caption": "", "heads": [], "rows": []})
        elif tag == "tr" and "tbody" in self.open:
            self.tables[-1]["rows"].append([])
        elif tag == "th" and "thead" in self.open:
            self.tables[-1]["heads"].append("")
        elif tag in ("th", "td"):
            self.tables[-1]["rows"][-1].append("")
        elif tag in ("h1", "h2", "h3", "h4"):
            self.headings.append((int(tag[1]), ""))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        data = data.replace(NO_BREAK, " ")
        self.text += "" if "style" in self.open else data
        if "caption" in self.open:
            self.tables[-1]["caption"] += data
        elif "th" in self.open and "thead" in self.open:
            self.tables[-1]["heads"][-1] += data
        elif "th" in self.open or "td" in self.open:
            self.tables[-1]["rows"][-1][-1] += data
        elif self.open and self.open[-1] in ("h1", "h2", "h3", "h4"):
            level, text = self.headings[-1]
            self.headings[-1] = (level, text + data)

    def named(self, tag):
        """Return the attributes of every such tag."""
        return [attributes for name, attributes in self.tags if name == tag]

    def table(self, caption):
        """Return the first table whose caption begins so."""
        return next(table for table in self.tables if table["caption"].startswith(caption))
