"""Words written as Markdown: numbers keep their units, and what is typed keeps its spaces."""

from turbomath.paper.markdown import markdown


def test_a_number_keeps_its_unit_and_a_command_its_spaces():
    page = markdown(
        "Boost is 24 psi (165 kPa), **31 % less**. Type `turbomath fit 5 m`.\n\n| a | 77 °F |\n|---|---|\n| b | c |"
    )
    for whole in (
        "24\u00a0psi",
        "165\u00a0kPa",
        "31\u00a0% less",
        "<th>77\u00a0°F</th>",
        "<code>turbomath fit 5 m</code>",
    ):
        assert whole in page
