"""A model that speaks of a point outside what it was fitted to says so, in the sentence on the boost."""

from dataclasses import replace

from tests.lab.verdicts import altered
from tests.lab.verdicts.altered import MAKER, generator, judged, read

TOLD = "is outside what it was fitted to"


def test_a_model_inside_its_fit_says_nothing_of_it():
    assert TOLD not in judged(generator()).boost.sentence


def test_a_model_carried_to_another_speed_says_how_far():
    rated = replace(MAKER, engine_speed=40.0)
    for system, words in (
        ("us", "The model is outside what it was fitted to: engine speed 1800 rpm, 21 % below 2280 rpm."),
        ("si", "The model is outside what it was fitted to: engine speed 1800 rpm, 21 % below 2280 rpm."),
    ):
        found = judged(generator(rated), system=system).boost
        assert {one.source for one in found.points} == {"model"}
        assert found.sentence.endswith(f"{words} There it shows which way things go, not how far.")


def test_a_fitted_engine_on_a_hot_day_at_another_speed_says_how_far(tmp_path):
    altered.write_fitted_engine(tmp_path)
    hotter = read(
        generator(None),
        ambient_temperature=lambda was: was + 20.0,
        engine_speed=lambda was: 0.8 * was,
    )
    found = judged(altered.with_model(hotter, tmp_path), system="si").boost
    assert {one.source for one in found.points} == {"fitted"}
    assert (
        "The fitted engine is outside what it was fitted to: engine speed 1440 rpm, 16 % below 1710 rpm"
        in found.sentence
    )
    assert "ambient temperature 45 °C, 10 C° above 35 °C" in found.sentence
