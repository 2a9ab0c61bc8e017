"""Units at the edge."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttlebone.base.quantity import ACCEPTED, Measure, Quantity, Span, convert, parse, parse_parts


@pytest.mark.parametrize(("text", "unit", "value"), [
    ("30 in", "cm", 76.2), ("76 cm", "cm", 76.0), ("0.76 m", "cm", 76.0), ("2.5 ft", "cm", 76.2), ("1/2 in", "mm", 12.7),
    ("1 1/4 in", "mm", 31.75), ("22 °C", "°C", 22.0), ("22C", "°C", 22.0), ("71.6 °F", "°C", 22.0), ("295.15 K", "°C", 22.0),
    ("1 oz", "g", 28.349523125), ("2 weeks", "h", 336.0), ("90 min", "h", 1.5), ("NW", "°", 315.0), ("12,5 mm", "mm", 12.5),
    ("1 cup", "mL", 236.5882365), ("20 cm/s", "m/s", 0.2),
])  # fmt: skip
def test_what_keepers_write_is_read(text, unit, value):
    """Definitions: the inch is 25.4 mm, the pound 453.59237 g, the US gallon 231 cubic inches (international agreement)."""
    assert parse(text, unit) == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize(("text", "unit"), [("30", "cm"), ("30 kg", "cm"), ("cm", "cm"), ("", "cm"), ("30 in in", "cm"), ("1/0 in", "mm"),
                                            ("1 in 50", "cm"), ("1e3 cm", "cm"), ("NWN", "°")])  # fmt: skip
def test_what_is_not_a_measure_is_refused_with_an_example(text, unit):
    with pytest.raises(ValueError, match=r"like|use|missing"):
        parse(text, unit)


@pytest.mark.parametrize(("text", "share"), [("1 in 50", 0.02), ("1:49", 0.02), ("1/100", 0.01), ("1 in 32", 1 / 32)])
def test_dilutions(text, share):
    assert parse_parts(text) == pytest.approx(share)


@given(st.sampled_from(sorted(ACCEPTED)), st.floats(0.5, 50), st.data())
def test_converting_there_and_back_changes_nothing(unit, value, data):
    other = data.draw(st.sampled_from(ACCEPTED[unit][1]))
    assert convert(convert(value, unit, other), other, unit) == pytest.approx(value, rel=1e-9, abs=1e-9)


def test_a_plain_number_is_refused_at_the_edge_only():
    measure = Measure("cm", 0, 100)
    assert measure.read(5) == 5.0
    with pytest.raises(ValueError, match="unit is missing"):
        measure.read(5, at_edge=True)
    for wrong in (True, None, float("nan"), 101):
        with pytest.raises(ValueError):  # noqa: PT011 - the message differs by kind
            measure.read(wrong)


def test_shown_in_the_keepers_units():
    assert Quantity(76.2, "cm").shown("imperial") == "30 in"
    assert Quantity(22, "°C").shown("imperial") == "71.6 °F"
    assert Quantity(12.3456, "g").shown("imperial") == "12.3 g"
    assert Span(low=45, unit="cm").shown() == "at least 45 cm"
    assert Span(2, 3, "h").shown() == "2 h to 3 h"
