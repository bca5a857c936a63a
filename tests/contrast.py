"""Contrast of two colours by the formula of WCAG 2.1 (relative luminance, success criterion 1.4.3)."""

from __future__ import annotations

RGB = tuple[float, float, float]


def relative_luminance(colour: RGB) -> float:
    """0 black to 1 white; channels 0-1 in sRGB."""
    red, green, blue = (
        channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4 for channel in colour
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: RGB, other: RGB) -> float:
    """1 (the same) to 21 (black on white)."""
    lighter, darker = sorted((relative_luminance(one), relative_luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)
