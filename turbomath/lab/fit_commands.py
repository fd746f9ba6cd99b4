"""`turbomath fit`: a few lines that call a room."""

from argparse import _SubParsersAction


def add(commands: _SubParsersAction) -> None:
    """Add `fit` to the command line."""
    fit = commands.add_parser(
        "fit", help="an engine of the model fitted to a run or a maker's sheet: its own boost, with ±"
    )
    fit.add_argument("run", metavar="RUN", help="a run folder with loaded points, or a shipped run")
    fit.add_argument(
        "--out", metavar="FILE", help="the engine's file (default: ./<run>-engine.toml); a page goes beside it"
    )
    fit.add_argument("--units", choices=("us", "si"), help="units shown (default: those of bench.toml)")
    fit.set_defaults(command=_fit)


def _fit(options):
    from turbomath.lab import fit_page
    from turbomath.lab.run import readings

    run = readings.read_run(options.run)
    system = options.units or run.bench.run.units
    fitted = fit_page.fitted_run(run, system)
    written = fit_page.write(fitted, options.out, system)
    print(fit_page.on_terminal(fitted, system), "", *(f"Written: {path}" for path in written), sep="\n")
    print(fit_page.use(written[0]))
