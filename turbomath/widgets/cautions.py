"""The safety texts where a lesson sends its reader to an engine."""

from html import escape

import ipywidgets

from turbomath.cautions import CAUTIONS, STANDING, STOP_TRIGGERS


def cautions():
    """Return the cautions as a widget: the standing one first, then each hazard with its source, then when to stop."""
    hazards = "".join(f"<li><b>{escape(one.hazard)}.</b> {escape(one.text)} <small>({escape(one.source)})</small></li>"
                      for one in CAUTIONS)  # fmt: skip
    stop = escape("; ".join(STOP_TRIGGERS))
    return ipywidgets.HTML(
        '<div style="max-width:75ch;line-height:1.5;white-space:normal">'
        f"<p><b>{escape(STANDING)}</b></p><ul>{hazards}</ul>"
        f"<p><b>Stop at once:</b> {stop}.</p></div>"
    )
