"""Where do things lie, worked out again from `layout.json`?

`x` runs from the crown of the zero fret toward the tail, `y` across, `z` up from the playing plane. The box leans
under the strings by the back angle, about the neck end of the box at the lid's top.
"""

import math


class BoxFrame:
    """The box's own coordinates: along the lid from the neck end, across, and above the lid's top."""

    def __init__(self, layout):
        frame = layout["box_frame"]
        self.x0, self.z0 = frame["neck_end_x_mm"], frame["lid_z_mm"]
        self.angle = math.radians(frame["back_angle_deg"])
        self.sin, self.cos, self.tan = math.sin(self.angle), math.cos(self.angle), math.tan(self.angle)

    def along(self, place):
        return (place["x_mm"] - self.x0) * self.cos - (place["z_mm"] - self.z0) * self.sin

    def above(self, place):
        return (place["x_mm"] - self.x0) * self.sin + (place["z_mm"] - self.z0) * self.cos

    def place(self, along, above):
        """The `x` and `z` of a place in the box."""
        return (self.x0 + along * self.cos + above * self.sin, self.z0 - along * self.sin + above * self.cos)

    def wall_x(self, z, along=0.0):
        """The `x` at height `z` of a wall that stands square on the lid."""
        x, lid_z = self.place(along, 0.0)
        return x + (z - lid_z) * self.tan

    def level_z(self, above, x):
        """The `z` at `x` of a plane parallel to the lid."""
        return self.z0 + above / self.cos - (x - self.x0) * self.tan


def neck_width(layout, x):
    """Constant before the nut's front face and beyond the box, straight between."""
    neck = layout["neck"]
    share = (x - neck["nut_front_x_mm"]) / (neck["box_x_mm"] - neck["nut_front_x_mm"])
    share = min(1.0, max(0.0, share))
    return neck["width_at_nut_mm"] + (neck["width_at_box_mm"] - neck["width_at_nut_mm"]) * share


def groove_ends(groove):
    half = groove["width_mm"] / 2
    return groove["x_mm"] - half, groove["x_mm"] + half


def board_ends(layout):
    """A fretboard reaches from the nut's front face to the box, wherever the wall stands nearest."""
    frame, neck = BoxFrame(layout), layout["neck"]
    nearest = min(frame.wall_x(0.0), frame.wall_x(neck["top_z_mm"]), neck["box_x_mm"])
    return neck["nut_front_x_mm"], nearest


def string_entry_z(layout):
    """Where strings go down through the overhang: the lowest of their holes' mouths, square to the bores."""
    return min([layout["neck"]["top_z_mm"]] + [string["tail"]["z_mm"] for string in layout["strings"]])


def neck_side_polygons(layout):
    """The neck from the side as three polygons in `x` and `z`: headstock, playing length, tongue and overhang."""
    frame, neck = BoxFrame(layout), layout["neck"]
    top, bottom, head_top = neck["top_z_mm"], neck["bottom_z_mm"], neck["head_top_z_mm"]
    head_end, nut, end = neck["head_end_x_mm"], neck["nut_front_x_mm"], neck["tail_end_x_mm"]
    head = [(head_end, bottom), (nut, bottom), (nut, head_top), (head_end, head_top)]
    playing = [(nut, bottom), (frame.wall_x(bottom), bottom), (frame.wall_x(top), top), (nut, top)]
    if neck["joint"] != "through":
        return head, playing, None
    level = neck["tongue_top_above_lid_mm"]
    tongue = [(frame.wall_x(bottom), bottom), (end, bottom)]
    if layout["tail"]["kind"] == "string through":
        entry, length = string_entry_z(layout), layout["box"]["length_mm"]
        tongue += [(end, entry), (frame.wall_x(entry, length), entry), frame.place(length, level)]
    else:
        tongue += [(end, frame.level_z(level, end))]
    tongue += [frame.place(0.0, level)]
    return head, playing, tongue


def polygon_area(points):
    """Shoelace formula."""
    following = points[1:] + points[:1]
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, following))) / 2
