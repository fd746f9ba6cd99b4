"""The pages of the lessons' server beside JupyterLab's: home, opening a lesson, beginning it again, teaching notes."""

from typing import Any

from jupyter_server.base.handlers import JupyterHandler
from jupyter_server.utils import url_path_join
from markupsafe import Markup
from tornado import web

from turbomath.classroom import digests, syllabus, work_copies
from turbomath.classroom.settings import HOME
from turbomath.disk import files, kept
from turbomath.paper.markdown import markdown
from turbomath.paper.page import page


class _Page(JupyterHandler):
    @property
    def under(self) -> str:
        """Where these pages are, as a path of the server."""
        return url_path_join(self.base_url, HOME)

    def _write(self, template: str, **content: Any) -> None:
        self.set_header("Content-Type", "text/html; charset=utf-8")
        self.finish(page(template, under=self.under, invented=False, **content))


class Home(_Page):
    """The syllabus, with what is done and where to go on; "begin again" forgets what was done in every lesson."""

    @web.authenticated
    def get(self) -> None:
        """Show the page."""
        found = syllabus.entries()
        self._write(
            "home.html",
            title="Turbocharging, charge density and aftercooling",
            lessons=found,
            go_on=syllabus.go_on(found),
            again=any(one.answers for one in found),
            form=Markup(self.xsrf_form_html()),
        )

    @web.authenticated
    def post(self) -> None:
        """Forget what is done."""
        kept.forget()
        self.redirect(self.under)


class Again(_Page):
    """A lesson from its beginning."""

    @web.authenticated
    def post(self, name: str) -> None:
        """Forget what was done in this lesson."""
        if name not in digests.lessons():
            raise web.HTTPError(404, f"There is no lesson {name!r}.")
        kept.forget(name)
        self.finish()


class Opened(_Page):
    """A lesson, from a clean work copy."""

    @web.authenticated
    def get(self, name: str) -> None:
        """Make the work copy and go to it."""
        if name not in digests.lessons():
            raise web.HTTPError(404, f"There is no lesson {name!r}.")
        work_copies.refresh(name, files.work_folder().absolute())
        self.redirect(url_path_join(self.base_url, "doc", "tree", f"{name}.ipynb"))


class Notes(_Page):
    """The teaching notes of a lesson, to read and to print."""

    @web.authenticated
    def get(self, name: str) -> None:
        """Show the page."""
        notes = syllabus.teaching_notes()
        if name not in notes:
            raise web.HTTPError(404, f"There are no teaching notes named {name!r}.")
        text = markdown(notes[name].read_text(encoding="utf-8"))
        self._write(
            "teaching_notes.html",
            title=f"Teaching notes {name}",
            name=name,
            lesson=name in digests.lessons(),
            text=text,
        )


def add_to(server: Any) -> None:
    """Add the pages to a JupyterLab server."""
    base = server.web_app.settings["base_url"]
    under, in_lessons = url_path_join(base, HOME), url_path_join(base, "files", "teaching_notes")
    pages = [(under, Home), (f"{under}/open/([^/]+)", Opened), (f"{under}/notes/([^/]+)", Notes)]
    pages += [(f"{under}/again/([^/]+)", Again)]
    pages += [(rf"{in_lessons}/([^/]+)\.md", Notes)]  # where a lesson's own link leads in a new tab
    server.web_app.add_handlers(".*$", pages)
