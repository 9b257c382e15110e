"""A page of HTML read back: its tags, whether they close, its words."""

from html.parser import HTMLParser


class Seen(HTMLParser):
    """Tags and attributes of a page; the text between them."""

    def __init__(self, html):
        super().__init__()
        self.tags, self.open, self.words = [], [], []
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in ("meta", "br", "circle", "line", "polygon", "rect", "input", "col"):
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.words.append(data)
