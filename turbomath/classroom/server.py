"""The server's own process: JupyterLab with one settings folder, ended when the command line that began it ends."""

import shutil
import sys
import threading
from pathlib import Path


def main(folder: Path) -> None:
    """Serve until the pipe from the parent closes, in whatever way the parent went; then leave nothing behind."""
    # Grammars of web addresses in foreign letters: nothing here asks for one, and they take 1.4 of 1.9 s of the import
    sys.modules["rfc3987_syntax"] = None  # type: ignore[assignment]
    from jupyter_core.paths import jupyter_config_dir
    from jupyterlab.labapp import LabApp

    from turbomath.classroom import pages

    server = LabApp.initialize_server(argv=[f"--config={folder / 'config.json'}"])
    pages.add_to(server, own=True)
    opened = Path(server.config.LabApp.default_url)
    if opened.suffix == ".ipynb":
        server.io_loop.add_callback(pages.begin, server.web_app.settings, opened.stem)
    threading.Thread(target=_stop_with_parent, args=(server,), daemon=True).start()
    try:
        server.start()
    finally:
        for left in (folder, jupyter_config_dir()):
            shutil.rmtree(left, ignore_errors=True)


def _stop_with_parent(server):
    sys.stdin.buffer.read()
    server.io_loop.add_callback(server.stop)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
