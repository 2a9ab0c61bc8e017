"""Small signs for the things in a room that matter to birds; our own shapes, one for each kind of hazard."""

from cuttlebone.pictures.svg import Point, Sheet

_WAVES = "M-5,-3q2.5,-3 5,0t5,0M-5,1q2.5,-3 5,0t5,0M-5,5q2.5,-3 5,0t5,0"
_PATHS = {
    "fume": _WAVES,
    "smoke": "M-4,6c-4,-4 4,-4 0,-8c-2,-2 0,-4 1,-4M3,6c-4,-4 4,-4 0,-8c-2,-2 0,-4 1,-4",
    "aerosol": "M-5,6v-6h5v6zM-3.5,0v-3h2v3M1,-4h1M4,-6h1M4,-3.5h1M4,-1h1",
    "gas": "M-5,2a3,3 0 0 1 1,-5a4,4 0 0 1 7,0a3,3 0 0 1 2,5z",
    "heat": "M-4,5V-2a1.6,1.6 0 0 1 3.2,0V5M2,5V-4M5,5V-2M-6,5H6",
    "fire": "M0,-6c1,3 4,4 4,8a4,4 0 0 1 -8,0c0,-2 1,-3 2,-4c0,2 1,2 2,2c0,-2 -1,-3 0,-6z",
    "draught": "M-6,-3h8a2,2 0 1 0 -2,-2M-6,0h11M-6,3h7a2,2 0 1 1 -2,2",
    "animal": "M-3.5,5c0,-3 2,-4 3.5,-4s3.5,1 3.5,4c-2,1 -5,1 -7,0zM-4.5,0v-1.5M-1.6,-2.5v-2M1.6,-2.5v-2M4.5,0v-1.5",
    "trap": "M0,-6L6,5H-6zM0,-2v3M0,3.2v.2",
    "metal": "M-3,-5h6l3,5l-3,5h-6l-3,-5zM-1.5,0a1.5,1.5 0 1 0 3,0a1.5,1.5 0 1 0 -3,0",
    "plant": "M0,6V-1M0,-1c-5,0 -5,-4 -5,-4c4,0 5,2 5,4c0,-3 1,-5 5,-5c0,4 -2,5 -5,5",
    "water": "M0,-6c3,4 4,5 4,8a4,4 0 0 1 -8,0c0,-3 1,-4 4,-8z",
    "light": "M-2.6,0a2.6,2.6 0 1 0 5.2,0a2.6,2.6 0 1 0 -5.2,0M0,-6v1.5M0,4.5v1.5M-6,0h1.5M4.5,0h1.5M-4,-4l1,1M3,3l1,1M-4,4l1,-1M3,-3l1,-1",
    "noise": "M-6,-2h3l3,-3v10l-3,-3h-3zM2.5,-2a3,3 0 0 1 0,4M4.5,-4a6,6 0 0 1 0,8",
}
_OTHER = "M0,-5v6M0,4v.3"


def draw_icon(sheet: Sheet, at: Point, kind: str, **more: str) -> None:
    """Draw the sign of a kind of hazard in a small disc; an unknown kind gets an exclamation mark."""
    sheet.add("circle", "cb-spot", cx=at.x, cy=at.y, r=9.5, **more)
    sheet.add("path", "cb-icon", d=_PATHS.get(kind, _OTHER), transform=f"translate({at.x:.2f} {at.y:.2f})")
