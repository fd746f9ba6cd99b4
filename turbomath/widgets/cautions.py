"""The safety texts where a lesson sends its reader to an engine."""

from html import escape

import ipywidgets

from turbomath.table.cautions import CAUTIONS, SHOP_CAUTIONS, STANDING, STOP_TRIGGERS


def cautions(*, whole: bool = False) -> ipywidgets.HTML:
    """Return the cautions as a widget: the standing one first, then each hazard with its source, then when to stop.

    The *whole* list has those before and beside a running engine as well.
    """
    hazards = "".join(
        f"<li><b>{escape(one.hazard)}.</b> {escape(one.text)} "
        f'<span style="font-size:14px">({escape(one.source)})</span></li>'
        for one in (*CAUTIONS, *(SHOP_CAUTIONS if whole else ()))
    )
    stop = escape("; ".join(STOP_TRIGGERS))
    return ipywidgets.HTML(
        '<div style="max-width:75ch;font-size:16px;line-height:1.5;white-space:normal">'
        f"<p><b>{escape(STANDING)}</b></p><ul>{hazards}</ul>"
        f"<p><b>Stop at once:</b> {stop}.</p></div>"
    )
