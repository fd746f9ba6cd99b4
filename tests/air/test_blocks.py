"""The block evaluation: arrays of any size, shape and layout give what single calls give."""

import itertools

import numpy as np
import pytest

from turbomath import air
from turbomath.air import blocks

SMALL = 8
SIZES = (0, 1, SMALL - 1, SMALL, SMALL + 1, 2 * SMALL, 3 * SMALL + 5)
LAST_FIGURES = 4e-15  # numpy's powers and logarithms of arrays end one or two figures otherwise than those of numbers
MODELS = {"real": air.choose("real"), "ideal": air.choose("ideal"), "moist": air.choose("moist", humidity_ratio=0.007)}
PROPERTIES = ("density", "enthalpy", "entropy", "specific_heat")
each_model = pytest.mark.parametrize("model", MODELS.values(), ids=MODELS)


@pytest.fixture
def small(monkeypatch):
    monkeypatch.setattr(blocks, "SIZE", SMALL)


def compressors(count, seed=11):
    """Random inlets, outlet pressures and efficiencies that every model reaches."""
    draw = np.random.default_rng(seed)
    inlet = draw.uniform(80e3, 105e3, count)
    return (
        inlet,
        draw.uniform(285.0, 320.0, count),
        inlet * draw.uniform(1.1, 4.0, count),
        draw.uniform(0.6, 0.9, count),
    )


def calls(model, arguments):
    """Each call of a model with what it is given: (call, arguments)."""
    yield from ((getattr(model, name), (arguments[2], arguments[1] + 150.0)) for name in PROPERTIES)
    yield model.outlet_temperature, arguments
    yield model.isentropic_efficiency, (*arguments[:3], arguments[1] + 190.0)


def is_what_single_calls_give(call, arguments):
    found = call(*arguments)
    each = np.broadcast_arrays(*arguments)
    single = [call(*map(float, one)) for one in zip(*(part.reshape(-1) for part in each), strict=True)]
    assert found.shape == each[0].shape
    np.testing.assert_allclose(found.reshape(-1), single, rtol=LAST_FIGURES, atol=0)


def test_every_size_about_a_block_gives_what_single_calls_give(small):
    for size in SIZES:
        for model in MODELS.values():
            for call, arguments in calls(model, compressors(size)):
                is_what_single_calls_give(call, arguments)


def test_odd_shapes_keep_their_shape(small):
    for shape in [(3, 7), (1, 23), (23, 1), (2, 3, 5), (5, 0), (1, 1, 1)]:
        for model in MODELS.values():
            arguments = tuple(one.reshape(shape) for one in compressors(int(np.prod(shape))))
            for call, given in calls(model, arguments):
                is_what_single_calls_give(call, given)


def test_views_that_skip_turn_round_and_transpose_are_read_in_their_order(small):
    for model in MODELS.values():
        wide = tuple(one.reshape(6, 10) for one in compressors(60))
        for view in (np.s_[::2, ::3], np.s_[::-1, 1:], np.s_[:, 4]):
            for call, given in calls(model, tuple(one[view] for one in wide)):
                is_what_single_calls_give(call, given)
        for call, given in calls(model, tuple(one.T for one in wide)):
            is_what_single_calls_give(call, given)


def test_numbers_rows_and_columns_broadcast(small):
    for model in MODELS.values():
        inlet, temperature, outlet, efficiency = compressors(11)
        for given in ((95e3, temperature[:, None], outlet, 0.74), (inlet[:, None], 300.0, np.array(250e3), efficiency)):
            is_what_single_calls_give(model.outlet_temperature, given)
        is_what_single_calls_give(model.density, (outlet[:3, None, None], temperature[None, :, None] + 150.0))


def test_blocks_of_the_size_in_use_join_without_a_seam():
    for model in MODELS.values():
        for count in (blocks.SIZE - 1, blocks.SIZE, blocks.SIZE + 1, 2 * blocks.SIZE + 1):
            arguments = compressors(count)
            found = model.outlet_temperature(*arguments)
            seams = [place for place in (0, blocks.SIZE - 1, blocks.SIZE, 2 * blocks.SIZE, count - 1) if place < count]
            single = [model.outlet_temperature(*(float(one[place]) for one in arguments)) for place in seams]
            np.testing.assert_allclose(found[seams], single, rtol=LAST_FIGURES)


def test_what_is_given_is_left_as_it_was_and_the_answer_is_new(small):
    for model in MODELS.values():
        given = compressors(3 * SMALL + 5)
        before = [one.copy() for one in given]
        answers = [call(*arguments) for call, arguments in calls(model, given)]
        for one, kept in zip(given, before, strict=True):
            np.testing.assert_array_equal(one, kept)
        assert not any(np.shares_memory(answer, one) for answer, one in itertools.product(answers, given))


def test_a_gap_stays_where_it_was(small):
    for model in MODELS.values():
        inlet, temperature, outlet, efficiency = compressors(2 * SMALL + 3)
        whole = model.outlet_temperature(inlet, temperature, outlet, efficiency)
        temperature[[0, SMALL - 1, SMALL, 2 * SMALL + 2]] = np.nan
        found = model.outlet_temperature(inlet, temperature, outlet, efficiency)
        np.testing.assert_array_equal(np.isnan(found), np.isnan(temperature))
        np.testing.assert_array_equal(found[~np.isnan(found)], whole[~np.isnan(found)])
