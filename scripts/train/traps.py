"""Pictures without any fabric, many of them with a repeat: rulers, keys, tiles, nets, ropes, print, tables.

A thing is a height map and a reflectance over its own axes p (along) and q (across), both in patch pixels;
light falls on it as on the fabric. Those made of strands and slats are in cords.py; cloth is drawn as yarn (`weave`
in fabric.py).
"""
import math

import torch
import torch.nn.functional as F

from cords import CORDS
from shade import gaussian, shelter, texture


class Plane:
    """Axes of a thing turned at random, and its step."""

    def __init__(self, draw, b, canvas, over):
        g = (torch.arange(canvas, device=draw.device).float() - canvas / 2) / over
        level = draw.uniform(b, 1, 1) < 0.6  # things lie along the frame more often than not
        angle = torch.where(level, 0.1 * draw.noise(b, 1, 1) + 1.5708 * (draw.uniform(b, 1, 1) * 4).floor(),
                            draw.uniform(b, 1, 1) * 6.2832)
        x, y = g[None, None, :], g[None, :, None]
        curl = 0.0012 * draw.noise(b, 1, 1) * (draw.uniform(b, 1, 1) < 0.4)  # things that are not straight
        x, y = x + curl * y * y, y + 0.0012 * draw.noise(b, 1, 1) * x * y
        self.p = x * torch.cos(angle) + y * torch.sin(angle) + draw.uniform(b, 1, 1) * 60
        self.q = y * torch.cos(angle) - x * torch.sin(angle) + draw.uniform(b, 1, 1) * 60
        self.step = torch.exp(draw.between(math.log(5), math.log(60), b, 1, 1))
        self.high = self.step * torch.where(draw.uniform(b, 1, 1) < 0.4, torch.ones(1, device=draw.device),
                                            torch.exp(draw.between(-0.7, 0.7, b, 1, 1)))
        self.b = b

    def cells(self, stagger):
        """Offsets from the middle of a cell, and the cell's column and row; each row shifted by `stagger` cells."""
        row = torch.floor(self.q / self.high)
        along = self.p / self.step + stagger * row
        column = torch.floor(along)
        return (along - column - 0.5) * self.step, self.q - (row + 0.5) * self.high, column, row


def rounded_box(dx, dy, half_x, half_y, radius):
    """Signed distance (negative inside) of a box with round corners."""
    ax, ay = dx.abs() - half_x + radius, dy.abs() - half_y + radius
    return torch.sqrt(ax.clamp_min(0) ** 2 + ay.clamp_min(0) ** 2) + torch.maximum(ax, ay).clamp_max(0) - radius


def hashed(column, row, salt):
    """A number from 0 to 1 for each cell."""
    return torch.remainder(torch.sin(column * 12.9898 + row * 78.233 + salt) * 43758.5453, 1.0)


def smooth(x, width):
    return torch.sigmoid(-x / width)


def keys(draw, plane):
    """Keyboard seen from above, calculator, remote control, tiles, bricks: boxes with a bevel, some with a sign."""
    b = plane.b
    kind = draw.uniform(b, 1, 1)
    stagger = torch.where(kind < 0.35, draw.between(0.2, 0.6, b, 1, 1), torch.zeros(1, device=draw.device))
    dx, dy, column, row = plane.cells(stagger)
    gap = draw.between(0.02, 0.2, b, 1, 1) * torch.minimum(plane.step, plane.high)
    small = torch.minimum(plane.step, plane.high)
    d = rounded_box(dx, dy, 0.5 * plane.step - gap, 0.5 * plane.high - gap, draw.between(0.02, 0.35, b, 1, 1) * small)
    bevel = draw.between(0.03, 0.22, b, 1, 1) * small
    dish = draw.between(-0.2, 0.2, b, 1, 1) * (dx ** 2 + dy ** 2) / small
    height = (-d / bevel).clamp(0, 1) * bevel * draw.between(0.2, 1.5, b, 1, 1) + dish * (d < 0)
    top = smooth(d, 0.5)
    sx, sy = dx / small, dy / small
    salt = draw.uniform(b, 1, 1) * 40
    angle = 6.28 * hashed(column, row, salt)
    bar = (sx * torch.cos(angle) + sy * torch.sin(angle) + 0.08 * torch.sin(9 * sy + salt)).abs()
    sign = ((bar < 0.045) & (torch.maximum(sx.abs(), sy.abs()) < draw.between(0.1, 0.3, b, 1, 1))).float()
    sign = sign * (draw.uniform(b, 1, 1) < 0.6) * (hashed(column, row, salt + 3) < 0.9)
    varied = 1 + draw.between(0.0, 0.3, b, 1, 1) * (hashed(column, row, salt + 7) - 0.5)
    ground, sign_value = torch.exp(draw.between(-2.0, 0.6, b, 1, 1)), torch.exp(draw.between(-2.0, 2.0, b, 1, 1))
    return height, (top * varied * (1 + sign * (sign_value - 1)) + (1 - top) * ground)


def ruler(draw, plane):
    p, step = plane.p, plane.step * 0.5
    k = torch.floor(p / step)
    long = torch.where(torch.remainder(k, 10) == 0, 1.0, torch.where(torch.remainder(k, 5) == 0, 0.75, 0.5))
    mark = (torch.remainder(p / step, 1) < draw.between(0.15, 0.5, plane.b, 1, 1)) & (plane.q.abs() < long * draw.between(10, 40, plane.b, 1, 1))
    body = smooth(plane.q.abs() - draw.between(20, 90, plane.b, 1, 1), 0.7)
    ink, value = torch.exp(draw.between(-2.5, 1.0, plane.b, 1, 1)), torch.exp(draw.between(-1.0, 1.0, plane.b, 1, 1))
    return 2 * body, (1 + body * (value - 1)) * (1 + mark.float() * (ink - 1))


def studs(draw, plane):
    """Round things in rows or staggered: holes, pegs, dots, bubbles, mesh of a speaker."""
    b = plane.b
    dx, dy, _, _ = plane.cells(0.5 * (draw.uniform(b, 1, 1) < 0.5).float())
    small = torch.minimum(plane.step, plane.high)
    radius = draw.between(0.15, 0.5, b, 1, 1) * small
    d = torch.sqrt(dx ** 2 + dy ** 2) - radius
    dome = torch.sqrt((1 - ((d + radius) / radius) ** 2).clamp_min(0)) * radius * draw.between(-0.6, 0.8, b, 1, 1)
    ink = torch.exp(draw.between(-2.5, 1.0, b, 1, 1))
    return dome, 1 + smooth(d, 0.6) * (ink - 1)


def scales(draw, plane):
    """Roof tiles, fish scales, brickwork of round ends: the nearest print to stitches that is none."""
    b = plane.b
    dx, dy, column, row = plane.cells(torch.full((b, 1, 1), 0.5, device=draw.device))
    small = torch.minimum(plane.step, plane.high)
    d = torch.sqrt((dx / plane.step) ** 2 + ((dy + 0.5 * plane.high) / plane.high) ** 2)
    line = (d - draw.between(0.5, 0.95, b, 1, 1)).abs() / draw.between(0.03, 0.12, b, 1, 1)
    ink = torch.exp(draw.between(-2.0, 0.5, b, 1, 1))
    return small * 0.3 * d * draw.between(-1, 1, b, 1, 1), 1 + smooth(line - 1, 0.3) * (ink - 1)


def plates(draw, plane):
    """Rings: plates, coasters, rims of cups."""
    r = torch.sqrt(plane.p ** 2 + plane.q ** 2)
    wave = torch.sin(r / plane.step * 6.28)
    on = (wave > draw.between(-0.5, 0.95, plane.b, 1, 1)).float()
    return plane.step * 0.1 * wave * draw.between(0, 1, plane.b, 1, 1), 1 + on * (torch.exp(draw.between(-2.5, 1.0, plane.b, 1, 1)) - 1)


def print_(draw, plane):
    """Lines of text, or a drawing of dashes."""
    b = plane.b
    fp = torch.remainder(plane.p / plane.step, 1.0)
    lines = (fp < draw.between(0.1, 0.6, b, 1, 1)) & (torch.sin(plane.q * 0.9 + torch.floor(plane.p / plane.step) * 2.3) + torch.sin(plane.q * 0.37) > 0)
    return 0 * plane.p, 1 + lines.float() * (torch.exp(draw.between(-2.5, 1.0, b, 1, 1)) - 1)


def checks(draw, plane):
    """Printed or woven checks, egg-box reliefs, squared paper, wire grids."""
    b = plane.b
    sp, sq = torch.sin(plane.p / plane.step * 6.28), torch.sin(plane.q / plane.high * 6.28)
    dx, dy, _, _ = plane.cells(torch.zeros(b, 1, 1, device=draw.device))
    line = torch.minimum(dx.abs(), dy.abs()) < draw.between(0.04, 0.2, b, 1, 1) * plane.step
    kind, ink = draw.uniform(b, 1, 1), torch.exp(draw.between(-2.5, 1.0, b, 1, 1))
    hard = 0.5 * (sp > 0).float() + 0.5 * (sq > 0).float()
    shape = torch.where(kind < 0.3, 0.5 + 0.5 * sp * sq, torch.where(kind < 0.6, hard, line.float()))
    return plane.step * 0.15 * shape * draw.between(-1, 1, b, 1, 1), 1 + shape * (ink - 1)


def ribs(draw, plane):
    """Corduroy, corrugated board, planks, combs, zips: one direction only, or two rows that mesh."""
    b = plane.b
    phase = plane.p / plane.step + 0.5 * torch.floor(plane.q / plane.high) * (draw.uniform(b, 1, 1) < 0.3).float()
    wave = torch.sin(phase * 6.28)
    cut = (wave > draw.between(-0.6, 0.6, b, 1, 1)).float()
    soft = draw.uniform(b, 1, 1)
    shape = soft * wave + (1 - soft) * cut
    return plane.step * 0.25 * shape * draw.between(-1, 1, b, 1, 1), 1 + cut * (torch.exp(draw.between(-1.5, 0.5, b, 1, 1)) - 1)


def edge(draw, plane):
    """Two plain areas, or one."""
    on = smooth(plane.p - 40, 0.6) * (draw.uniform(plane.b, 1, 1) < 0.7)
    return 3 * on, 1 + on * (torch.exp(draw.between(-1.5, 1.5, plane.b, 1, 1)) - 1)


KINDS = [(keys, 0.24), (ruler, 0.06), (studs, 0.09), (scales, 0.08), (plates, 0.04), (print_, 0.05), (checks, 0.08),
         (ribs, 0.07), (edge, 0.05), *CORDS]


def ending(draw, plane, height, reflectance):
    """A third of the things end within the frame, on one side or two."""
    b = plane.b
    some = draw.uniform(b, 1, 1) < 0.35
    far = torch.full((b, 1, 1), 1e4, device=draw.device)
    end_p = torch.where(some & (draw.uniform(b, 1, 1) < 0.6), draw.noise(b, 1, 1) * 50 + 40, far)
    end_q = torch.where(some & (draw.uniform(b, 1, 1) < 0.6), draw.noise(b, 1, 1) * 50 + 40, far)
    on = ((plane.p < end_p) & (plane.q < end_q)).float()
    return height * on, on * reflectance + (1 - on) * torch.exp(draw.between(-1.5, 1.2, b, 1, 1))


def things(draw, b, canvas, over):
    """b pictures of one kind of thing, linear luminance, canvas x canvas pixels, `over` of them a patch pixel."""
    plane = Plane(draw, b, canvas, over)
    make = KINDS[draw.choose([share for _, share in KINDS])][0]
    height, reflectance = ending(draw, plane, *make(draw, plane))
    height, reflectance = height.expand(b, canvas, canvas), reflectance.expand(b, canvas, canvas)
    height = gaussian(height, 0.7) * over
    gx = 0.5 * F.pad(height[:, :, 2:] - height[:, :, :-2], (1, 1))
    gy = 0.5 * F.pad(height[:, 2:, :] - height[:, :-2, :], (0, 0, 1, 1))
    elevation, azimuth = draw.between(0.3, 1.5, b, 1, 1), draw.uniform(b, 1, 1) * 6.28
    lit = torch.sin(elevation) - (gx * torch.cos(azimuth) + gy * torch.sin(azimuth)) * torch.cos(elevation)
    lit = (lit / torch.sqrt(1 + gx ** 2 + gy ** 2)).clamp_min(0)
    toward = torch.cat([torch.cos(azimuth) * torch.cos(elevation), torch.sin(azimuth) * torch.cos(elevation), torch.sin(elevation)], 1)[..., 0]
    ao, free = shelter(height, (0.2 * plane.step).clamp(1.5, 8.0).view(b) * over, toward, draw.between(0.0, 1.0, b))
    free = 1 - draw.between(0.0, 1.0, b, 1, 1) * (1 - free)
    ambient = draw.between(0.15, 0.7, b, 1, 1)
    base = torch.exp(draw.between(-2.5, 0.0, b, 1, 1))
    return base * texture(draw, b, canvas) * reflectance * (ambient * ao + (1 - ambient) * lit * free)
