"""The engine's writing of figures and cells, under the name by which the screens import it."""

from engine.showing import cell_text, figure_text, head_text, limits_text

__all__ = ["cell_text", "figure_text", "head_text", "limits_text"]
