"""The lessons on a Jupyter server, their own or any other: home, opening a lesson, beginning it again, teaching notes.

The wheel puts `jupyter_server_config.json`, `no_news.json` and the extension where every Jupyter server of that Python
finds them.
"""

import os
from contextlib import suppress
from pathlib import Path
from typing import Any

from jupyter_server.base.handlers import JupyterHandler
from jupyter_server.utils import url_escape, url_path_join
from markupsafe import Markup
from tornado import web
from tornado.ioloop import IOLoop

from turbomath.classroom import digests, settings, syllabus, work_copies
from turbomath.classroom.settings import HOME
from turbomath.disk import files, kept
from turbomath.paper.markdown import markdown
from turbomath.paper.page import page
from turbomath.table.errors import refused


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
            work=files.work_folder(),
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
        try:
            work_copies.refresh(name, files.work_folder().absolute())
        except OSError as trouble:
            raise web.HTTPError(409, f"The lesson cannot be put into your work folder. {refused(trouble)}") from None
        IOLoop.current().spawn_callback(begin, self.settings, name)
        self.redirect(url_path_join(self.base_url, self.settings["turbomath_tree"], f"{name}.ipynb"))


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


def add_to(server: Any, *, own: bool = False) -> None:
    """Add the pages to a Jupyter server, and tell the extension which code may run and where the work is.

    On a server that is not the lessons' *own* they open in a workspace of theirs, so that the layout that the user has
    in JupyterLab stays.
    """
    work = _work_below(Path(server.root_dir).resolve(), server.log)
    known = server.web_app.settings
    known["turbomath_work"] = work
    known["turbomath_tree"] = url_path_join("doc/tree" if own else "doc/workspaces/turbomath/tree", url_escape(work))
    if not own:
        notebook = settings.overrides()["@jupyterlab/notebook-extension:tracker"]
        told = settings.told_to_the_page() | {"turbomathWork": work, "turbomathNotebook": notebook}
        known.setdefault("page_config_data", {}).update(told)
    base = known["base_url"]
    under, in_lessons = url_path_join(base, HOME), url_path_join(base, "files", url_escape(work), "teaching_notes")
    pages = [(under, Home), (f"{under}/open/([^/]+)", Opened), (f"{under}/notes/([^/]+)", Notes)]
    pages += [(f"{under}/again/([^/]+)", Again)]
    pages += [(rf"{in_lessons}/([^/]+)\.md", Notes)]  # where a lesson's own link leads in a new tab
    server.web_app.add_handlers(".*$", pages)


async def begin(known: dict[str, Any], name: str) -> None:
    """Start the Python of a lesson on the server with these settings, while its page is still on its way."""
    sessions, path = known["session_manager"], url_path_join(known["turbomath_work"], f"{name}.ipynb")
    with suppress(Exception):  # the page asks for it again, and says what is wrong
        if not await sessions.session_exists(path):
            kernel = known["kernel_manager"].default_kernel_name
            await sessions.create_session(path=path, name=f"{name}.ipynb", type="notebook", kernel_name=kernel)


def _work_below(root, log):
    """Return the work folder as a path below the folder that the server shows; it is one in there if need be."""
    work = files.work_folder().resolve()
    if not work.is_relative_to(root):
        work = root / "turbomath"
        os.environ["TURBOMATH_WORK"] = str(work)  # for each notebook's Python as well
    log.info("turbomath: the lessons are at %s, what is done in them is kept in %s", HOME, work)
    return "" if work == root else work.relative_to(root).as_posix()


# The names by which a Jupyter server looks for what it is to load.
_load_jupyter_server_extension = add_to


def _jupyter_server_extension_points():
    return [{"module": __name__}]
