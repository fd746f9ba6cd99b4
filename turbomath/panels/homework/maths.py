"""Equations for the page: MathML taken apart, so that the script can make its nodes and needs no markup."""

from typing import Any
from xml.etree import ElementTree

from turbomath.paper.equations import mathml

NAMESPACE = "http://www.w3.org/1998/Math/MathML"


def tree(latex: str) -> list[Any]:
    """Return an equation written in LaTeX as [tag, attributes, text, parts], each part of the same shape.

    Examples
    --------
    >>> tree("x = 2")[3][0][3]
    [['mi', {}, 'x', []], ['mo', {}, '=', []], ['mn', {}, '2', []]]
    """
    return _taken_apart(ElementTree.fromstring(mathml(latex, display="block")))


def _taken_apart(node):
    tag = node.tag.rpartition("}")[2]
    return [tag, dict(node.attrib), node.text or "", [_taken_apart(one) for one in node]]
