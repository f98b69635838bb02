"""Which colours does the window have, by day and by night?"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QWidget


@dataclass(frozen=True, slots=True, kw_only=True)
class Colours:
    """One scheme, as hex. `stations` go from A on and begin again after the last; `on_station` is written on them."""

    is_dark: bool
    page: str
    card: str
    rail: str
    chosen: str
    ink: str
    quiet: str
    accent: str
    on_accent: str
    fits: str
    fits_tint: str
    tight: str
    tight_tint: str
    late: str
    late_tint: str
    hairline: str
    edge: str
    stations: tuple[str, ...]
    on_station: str

    def station(self, position: int) -> str:
        """Return the colour of the station at that place in the list."""
        return self.stations[position % len(self.stations)]

    def of_grade(self, grade: str) -> tuple[str, str]:
        """Return ink and tint of a verdict's grade."""
        return {
            "comfortable": (self.fits, self.fits_tint),
            "tight": (self.tight, self.tight_tint),
            "late": (self.late, self.late_tint),
            "blocked": (self.late, self.late_tint),
        }.get(grade, (self.ink, self.rail))

    def of_level(self, level: str) -> str:
        """Return the ink of a finding's level."""
        return {"blocker": self.late, "warning": self.tight}.get(level, self.quiet)


LIGHT = Colours(
    is_dark=False,
    page="#FBFAF7",
    card="#FFFFFF",
    rail="#F1F0EA",
    chosen="#E3F0EE",
    ink="#22302B",
    quiet="#55635D",
    accent="#0B6660",
    on_accent="#FFFFFF",
    fits="#1F6336",
    fits_tint="#E4F2E8",
    tight="#7A4E00",
    tight_tint="#FFF1D2",
    late="#932A1D",
    late_tint="#FBE7E3",
    hairline="#D9DED9",
    edge="#7F8B85",
    stations=("#0B6660", "#B4531A", "#3F5FA8", "#8A3F7C", "#5C6B12", "#A8323E", "#2B7591", "#6B5B95"),
    on_station="#FFFFFF",
)
DARK = Colours(
    is_dark=True,
    page="#1A211F",
    card="#232C29",
    rail="#212926",
    chosen="#203A37",
    ink="#E8EEEB",
    quiet="#A9B7B1",
    accent="#6BD0C6",
    on_accent="#10201D",
    fits="#93D8A8",
    fits_tint="#1E3527",
    tight="#F4CC74",
    tight_tint="#3A2F14",
    late="#FFA99B",
    late_tint="#43221D",
    hairline="#3A4642",
    edge="#74837D",
    stations=("#5CC4BA", "#F0A377", "#9DB6F0", "#DDA0D2", "#A9C421", "#E4A5AB", "#7DBFD8", "#BBB3D1"),
    on_station="#10201D",
)


def colours_of(widget: QWidget) -> Colours:
    """Return the scheme that a widget's palette belongs to."""
    return DARK if widget.palette().color(QPalette.ColorRole.Window).lightness() < 128 else LIGHT


def palette_of(colours: Colours) -> QPalette:
    """Return the palette for widgets that draw themselves; disabled text stays readable."""
    roles = {
        QPalette.ColorRole.Window: colours.page,
        QPalette.ColorRole.WindowText: colours.ink,
        QPalette.ColorRole.Base: colours.card,
        QPalette.ColorRole.AlternateBase: colours.rail,
        QPalette.ColorRole.Text: colours.ink,
        QPalette.ColorRole.Button: colours.card,
        QPalette.ColorRole.ButtonText: colours.ink,
        QPalette.ColorRole.BrightText: colours.late,
        QPalette.ColorRole.PlaceholderText: colours.quiet,
        QPalette.ColorRole.Highlight: colours.accent,
        QPalette.ColorRole.HighlightedText: colours.on_accent,
        QPalette.ColorRole.Link: colours.accent,
        QPalette.ColorRole.LinkVisited: colours.accent,
        QPalette.ColorRole.ToolTipBase: colours.card,
        QPalette.ColorRole.ToolTipText: colours.ink,
        QPalette.ColorRole.Light: colours.card,
        QPalette.ColorRole.Midlight: colours.hairline,
        QPalette.ColorRole.Mid: colours.edge,
        QPalette.ColorRole.Dark: colours.edge,
        QPalette.ColorRole.Shadow: colours.edge,
        QPalette.ColorRole.Accent: colours.accent,
    }
    palette = QPalette()
    for role, colour in roles.items():
        palette.setColor(role, QColor(colour))
    for role in (QPalette.ColorRole.WindowText, QPalette.ColorRole.Text, QPalette.ColorRole.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, role, QColor(colours.quiet))
    return palette


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours by the rule of the web accessibility guidelines (1 to 21)."""

    def luminance(colour: str) -> float:
        parts = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in _parts(colour)]
        return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]

    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def mixed(one: str, other: str, share: float) -> QColor:
    """Return `share` of one colour in another, as paint would mix."""
    red, green, blue = (x * share + y * (1 - share) for x, y in zip(_parts(one), _parts(other), strict=True))
    return QColor.fromRgbF(red, green, blue)


def _parts(colour: str) -> tuple[float, float, float]:
    given = QColor(colour)
    return given.redF(), given.greenF(), given.blueF()
