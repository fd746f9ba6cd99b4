"""`turbomath offline-kit`: a few lines that call a room."""

from argparse import _SubParsersAction


def add(commands: _SubParsersAction) -> None:
    """Add `offline-kit` to the command line."""
    kit = commands.add_parser("offline-kit", help="a folder that installs and starts turbomath on a PC without network")
    kit.add_argument("folder", metavar="FOLDER", help="a new folder, about 100 MB for each sort of PC")
    kit.add_argument(
        "--platform",
        dest="platforms",
        metavar="NAME",
        nargs="+",
        default=[],
        help="for which PCs: windows, macos, macos-intel, linux (default: as this one)",
    )
    kit.add_argument(
        "--python",
        dest="pythons",
        metavar="VERSION",
        nargs="+",
        default=[],
        help="for which Python there: 3.11 to 3.14 (default: as here)",
    )
    kit.set_defaults(command=_kit)


def _kit(options):
    from turbomath.offline import kit

    folder = kit.write(options.folder, options.platforms, options.pythons, lambda words: print(words, flush=True))
    print(f"Written: {folder}", "Copy the whole folder to the PC and open README.html in it.", sep="\n")
