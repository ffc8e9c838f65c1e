"""Three sets of colours of our own; none of them carries a meaning that words do not carry too."""

from textual.theme import Theme

_SUNLIGHT = {"ink": "#000000", "paper": "#ffffff"}
_DARK = {"ink": "#f2ead8", "paper": "#10161c", "sea": "#8fd3c8", "buoy": "#ffb454"}

DARK = Theme(
    name="dark",
    primary=_DARK["sea"],
    secondary=_DARK["sea"],
    accent=_DARK["sea"],
    warning=_DARK["buoy"],
    error=_DARK["buoy"],
    success=_DARK["sea"],
    foreground=_DARK["ink"],
    background=_DARK["paper"],
    surface=_DARK["paper"],
    panel=_DARK["paper"],
    text_alpha=1.0,
    variables={
        "tone-title": f"bold {_DARK['paper']} on {_DARK['sea']}",
        "tone-head": f"bold {_DARK['sea']}",
        "tone-quiet": "#b9b4a6",
        "tone-warn": f"bold {_DARK['buoy']}",
    },
)
SUNLIGHT = Theme(
    name="sunlight",
    primary=_SUNLIGHT["ink"],
    secondary=_SUNLIGHT["ink"],
    accent=_SUNLIGHT["ink"],
    warning=_SUNLIGHT["ink"],
    error=_SUNLIGHT["ink"],
    success=_SUNLIGHT["ink"],
    foreground=_SUNLIGHT["ink"],
    background=_SUNLIGHT["paper"],
    surface=_SUNLIGHT["paper"],
    panel=_SUNLIGHT["paper"],
    dark=False,
    text_alpha=1.0,
    variables={
        "tone-title": "bold #ffffff on #000000",
        "tone-head": "bold #000000",
        "tone-quiet": "#000000",
        "tone-warn": "bold #000000",
    },
)
TERMINAL = Theme(
    name="terminal",
    ansi=True,
    primary="ansi_default",
    secondary="ansi_default",
    accent="ansi_default",
    warning="ansi_default",
    error="ansi_default",
    success="ansi_default",
    foreground="ansi_default",
    background="ansi_default",
    surface="ansi_default",
    panel="ansi_default",
    variables={
        "ansi-background": "ansi_default",  # asked for by the screen library's own style sheet
        "ansi-foreground": "ansi_default",
        "tone-title": "bold reverse",
        "tone-head": "bold",
        "tone-quiet": "",
        "tone-warn": "bold",
    },
)
THEMES = (DARK, SUNLIGHT, TERMINAL)
NAMES = tuple(theme.name for theme in THEMES)


def after(name: str) -> str:
    """Return the theme that follows one, round and round."""
    return NAMES[(NAMES.index(name) + 1) % len(NAMES)]
