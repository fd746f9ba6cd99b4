"""The safety texts where a lesson sends its reader to an engine."""

from html import escape

import ipywidgets

from turbomath.table.cautions import CAUTIONS, SHOP_CAUTIONS, STANDING, STOP_TRIGGERS

STYLE = "max-width:75ch;font-size:16px;line-height:1.5;white-space:normal"


def cautions(*, whole: bool = False) -> ipywidgets.HTML:
    """Return the cautions as a widget: the standing one first, then each hazard with its source, then when to stop.

    The *whole* list has those before and beside a running engine as well.
    """
    standing, *hazards, stop = _parts(whole)
    listed = "".join(f"<li>{one}</li>" for one in hazards)
    return ipywidgets.HTML(f'<div style="{STYLE}"><p>{standing}</p><ul>{listed}</ul><p>{stop}</p></div>')


def cautions_in_turn(*, whole: bool = False) -> ipywidgets.VBox:
    """Return the cautions one at a time, each with a button that says it is read; then all of them, to look up.

    A second button shows all at once, to print.
    """
    parts = _parts(whole)
    page = ipywidgets.HTML()
    read, every = (ipywidgets.Button(description=words) for words in ("we have read this", "show all, to print"))
    buttons = ipywidgets.HBox([read, every])
    read_so_far = 0

    def show():
        place = f"Caution {read_so_far + 1} of {len(parts)}"
        page.value = (
            f'<div role="status" style="{STYLE};min-height:5.5em"><p>{place}</p><p>{parts[read_so_far]}</p></div>'
        )

    def show_all(_button):
        page.value, buttons.layout.display = cautions(whole=whole).value, "none"

    def next_one(button):
        nonlocal read_so_far
        read_so_far += 1
        if read_so_far == len(parts):
            show_all(button)
        else:
            show()

    read.on_click(next_one)
    every.on_click(show_all)
    show()
    return ipywidgets.VBox([page, buttons])


def _parts(whole):
    """Return the standing caution, each hazard, and when to stop, as HTML."""
    hazards = (
        f'<b>{escape(one.hazard)}.</b> {escape(one.text)} <span style="font-size:14px">({escape(one.source)})</span>'
        for one in (*CAUTIONS, *(SHOP_CAUTIONS if whole else ()))
    )
    stop = escape("; ".join(STOP_TRIGGERS))
    return [f"<b>{escape(STANDING)}</b>", *hazards, f"<b>Stop at once:</b> {stop}."]
