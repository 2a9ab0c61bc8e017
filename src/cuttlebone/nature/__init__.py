"""Equations that several rooms share: sun, light, moist air, air. Pure functions."""
