"""Sliders, readings and a picture: the only place that imports ipywidgets."""
