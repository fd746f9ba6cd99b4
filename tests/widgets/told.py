"""A panel without a browser: messages go in where the browser's would, frames come out where the browser reads them."""

from turbomath.panels.hot_air_is_thin import LESSON, panel_hot_air_is_thin

PREDICTION = LESSON.predictions["hot_air_is_thin"]


def tell(widget, say, **words):
    """Send a message as the script does and return the frame that answers it."""
    widget._handle_custom_msg({"say": say, "turn": "test", **words}, [])
    return widget.frame


def opened():
    """Return the lesson's panel with a prediction made and nothing held."""
    panel = panel_hot_air_is_thin()
    tell(panel, "answer", text=PREDICTION.options[1].words)
    tell(panel, "hold", name="manifold_temperature", on=False)
    return panel


def line(frame, name):
    """Return what a frame says of one control."""
    return next(one for one in frame["controls"] if one["name"] == name)
