"""Traps made of strands and slats: nets, coiled and parallel rope, plaits, basketry, fences.

As the things of traps.py: a height and a reflectance over the axes p and q of a plane, patch pixels. They have what
stitches have, strands that lie over each other in a repeat, but none of them is a fabric of loops.
"""
import math

import torch


def tone(draw, b, low=-1.5, high=1.2):
    """Reflectance against the ground, of either sign."""
    return torch.exp(draw.between(low, high, b, 1, 1))


def round_top(off, radius):
    """Height of a round strand `off` pixels from its middle, and where it is."""
    inside = 1 - (off / radius) ** 2
    return radius * torch.sqrt(inside.clamp_min(0)), (inside > 0).float()


def plies(draw, around, along, lag, both_ways):
    """Grooves between plies of a rope: 1 on a ply, 0 in a groove. around: -1 to 1 across the rope."""
    turn = 3 * torch.asin(around.clamp(-0.98, 0.98))
    one = torch.cos(0.5 * (turn + 6.2832 * along / lag)).abs()
    other = torch.cos(0.5 * (turn - 6.2832 * along / lag)).abs()
    return torch.where(both_ways, one * other, one)


def over_ground(height, on, z):
    """The highest of several strands: lists of heights, masks and heights of the strands' middles."""
    best = torch.zeros_like(height[0])
    seen = torch.zeros_like(height[0])
    for h, o, lift in zip(height, on, z):
        best = torch.maximum(best, o * (h + lift))
        seen = torch.maximum(seen, o)
    return best, seen


def bent(phase, edge):
    """A zigzag (edge near 1) or a wave, -1 to 1, and its slope for each radian of the phase."""
    s = torch.sin(phase)
    return torch.asin(edge * s) / torch.asin(edge), edge * torch.cos(phase) / torch.sqrt(1 - (edge * s) ** 2) / torch.asin(edge)


def nets(draw, plane):
    """Strands bent in zigzags or waves, side by side or hooked into each other; much thinner than their mesh."""
    b, step = plane.b, plane.step
    period = 2 * plane.high
    radius = step * torch.exp(draw.between(math.log(0.035), math.log(0.12), b, 1, 1))
    reach = step * draw.between(0.25, 0.62, b, 1, 1)
    edge = draw.between(0.8, 0.999, b, 1, 1)
    mirrored = (draw.uniform(b, 1, 1) < 0.5).float()
    middle = torch.round(plane.p / step)
    heights, masks, lifts = [], [], []
    for k in (-1, 0, 1):
        column = middle + k
        phase = 6.2832 * plane.q / period + math.pi * mirrored * torch.remainder(column, 2)
        wave, slope = bent(phase, edge)
        slope = slope * reach * 6.2832 / period
        off = (plane.p - column * step - reach * wave) / torch.sqrt(1 + slope ** 2)
        h, on = round_top(off, radius)
        heights.append(h)
        masks.append(on)
        lifts.append(radius * (1.5 + 0.7 * torch.cos(phase)))
    height, seen = over_ground(heights, masks, lifts)
    return height, 1 + seen * (tone(draw, b) - 1)


def meshes(draw, plane):
    """Straight strands both ways, knotted or welded where they cross: fishing net, wire mesh, trellis."""
    b, step = plane.b, plane.step
    radius = step * torch.exp(draw.between(math.log(0.03), math.log(0.13), b, 1, 1))
    skew = draw.between(-0.6, 0.6, b, 1, 1) * (draw.uniform(b, 1, 1) < 0.6)
    slack = 0.06 * step * draw.uniform(b, 1, 1)
    u = plane.p + skew * plane.q + slack * torch.sin(6.2832 * plane.q / plane.high)
    v = plane.q + slack * torch.sin(6.2832 * plane.p / step)
    du = (torch.remainder(u / step, 1) - 0.5) * step / torch.sqrt(1 + skew ** 2)
    dv = (torch.remainder(v / plane.high, 1) - 0.5) * plane.high
    one, on_one = round_top(du, radius)
    two, on_two = round_top(dv, radius)
    knot, on_knot = round_top(torch.sqrt(du ** 2 + dv ** 2), radius * draw.between(1.0, 2.6, b, 1, 1))
    height, seen = over_ground([one, two, knot], [on_one, on_two, on_knot], [radius, 0.4 * radius, 1.2 * radius])
    return height, 1 + seen * (tone(draw, b) - 1)


def ropes(draw, plane):
    """Rope and cord laid side by side, or coiled to a mat: turns that look like rounds, plies that look like stitches."""
    b, step = plane.b, plane.step
    x, y = plane.p - draw.noise(b, 1, 1) * 70, plane.q - draw.noise(b, 1, 1) * 70
    angle = torch.remainder(torch.atan2(y, x), 6.2832)
    turns = torch.sqrt(x ** 2 + y ** 2) / step - angle / 6.2832
    coiled = draw.uniform(b, 1, 1) < 0.5
    across = torch.where(coiled, turns, plane.q / step)
    turn = torch.floor(across)
    total = 6.2832 * turn.clamp_min(0) + angle
    salt = 40 * draw.uniform(b, 1, 1) * (draw.uniform(b, 1, 1) < 0.7)  # ropes cut from one another, or beginning alike
    along = torch.where(coiled, step * total ** 2 / 12.566, plane.p + 17.3 * turn * salt)
    around = 2 * (across - turn - 0.5) / draw.between(0.85, 1.0, b, 1, 1)
    lag = step * draw.between(0.35, 1.8, b, 1, 1) * torch.sign(draw.noise(b, 1, 1))
    ply = plies(draw, around, along, lag, draw.uniform(b, 1, 1) < 0.25)
    depth = draw.between(0.1, 0.9, b, 1, 1)
    h, on = round_top(around, torch.ones_like(around))
    height = 0.5 * step * h * (1 - 0.25 * depth * (1 - ply))
    return height, on * (1 - 0.8 * depth * (1 - ply) ** 2) + (1 - on) * draw.between(0.1, 1.0, b, 1, 1)


def plaits(draw, plane):
    """Plaits and cables of two or three strands, alone or apart from each other."""
    b, step = plane.b, plane.step
    spacing = step * torch.where(draw.uniform(b, 1, 1) < 0.5, 40.0 * torch.ones(1, device=draw.device), draw.between(1.25, 2.4, b, 1, 1))
    column = torch.round(plane.p / spacing)
    x, phase = plane.p - column * spacing, 6.2832 * plane.q / (2.2 * plane.high) + 2.4 * column
    strands = 3 if draw.toss() < 0.6 else 2
    radius = step * draw.between(0.15, 0.24, b, 1, 1)
    lag = step * draw.between(0.15, 0.6, b, 1, 1)
    heights, masks, lifts, darkness = [], [], [], torch.ones_like(x)
    for k in range(strands):
        t = phase + 6.2832 * k / strands
        slope = 0.3 * step * torch.cos(t) * 6.2832 / (2.2 * plane.high)
        off = (x - 0.3 * step * torch.sin(t)) / torch.sqrt(1 + slope ** 2)
        h, on = round_top(off, radius)
        ply = plies(draw, off / radius, plane.q, lag, torch.zeros_like(radius) > 1)
        heights.append(h * (0.85 + 0.15 * ply))
        masks.append(on)
        lifts.append(radius * (1.3 + torch.sin(2 * t) if strands == 3 else 1.3 + torch.cos(t)))
        darkness = torch.where(on > 0, 0.75 + 0.25 * ply, darkness)
    height, seen = over_ground(heights, masks, lifts)
    return height, 1 + seen * (tone(draw, b) * darkness - 1)


def baskets(draw, plane):
    """Basketry: blocks of one to three strips over and under, or round canes about stakes."""
    b = plane.b
    dx, dy, column, row = plane.cells(torch.zeros(b, 1, 1, device=draw.device))
    fx, fy = dx / plane.step, dy / plane.high
    strips = (1 + 3 * draw.uniform(b, 1, 1)).floor()
    period = torch.where(draw.uniform(b, 1, 1) < 0.6, 2.0, 3.0)
    lying = torch.remainder(column + row, period) < 1
    across = torch.where(lying, fy, fx)
    along = torch.where(lying, fx, fy)
    strip = torch.floor((across + 0.5) * strips)
    f = ((across + 0.5) * strips - strip - 0.5) * 2 / draw.between(0.8, 1.0, b, 1, 1)
    flat = draw.between(0.5, 6.0, b, 1, 1)
    inside = (1 - f.abs() ** (1 + flat)).clamp_min(0)
    blocks = inside ** 0.5 * plane.step * 0.3 / strips * (0.6 + 0.4 * torch.cos(math.pi * along))
    canes = torch.sqrt((1 - (2 * fy) ** 2).clamp_min(0)) * plane.high * 0.5 * (0.55 + 0.45 * torch.cos(math.pi * (plane.p / plane.step + row)))
    wicker = draw.uniform(b, 1, 1) < 0.4
    shade = torch.remainder(torch.sin(12.9898 * (column + 3 * strip) * lying + 78.233 * (row + 5 * strip) * ~lying) * 43758.5453, 1.0)
    varied = 1 + draw.between(0.0, 0.5, b, 1, 1) * (shade - 0.5)
    gap = draw.between(0.1, 1.0, b, 1, 1)
    seen = torch.where(wicker, torch.ones_like(inside), (inside > 0.02).float())
    return torch.where(wicker, canes, blocks), seen * varied + (1 - seen) * gap


def slats(draw, plane):
    """Fences, blinds, grates: bars in a row, each of its own shade, over two rails, with points or without."""
    b, step = plane.b, plane.step
    place = plane.p / step
    bar = torch.floor(place)
    f = place - bar - 0.5
    wide = draw.between(0.4, 0.95, b, 1, 1)
    salt = 40 * draw.uniform(b, 1, 1)
    own = torch.remainder(torch.sin(12.9898 * bar + salt) * 43758.5453, 1.0)
    endless = (draw.uniform(b, 1, 1) < 0.25).float() * 1e4
    half = draw.between(12.0, 80.0, b, 1, 1) + endless + 4 * (own - 0.5)
    q = plane.q - draw.noise(b, 1, 1) * 30
    point = draw.between(0.0, 0.7, b, 1, 1) * step * (draw.uniform(b, 1, 1) < 0.6)
    on = ((f.abs() < 0.5 * wide) & (q < half) & (q > point * 2 * f.abs() - half)).float()
    at = draw.between(0.2, 0.8, b, 1, 1) * half.clamp_max(60.0)
    rail = ((q.abs() - at).abs() < draw.between(0.08, 0.3, b, 1, 1) * step).float() * (draw.uniform(b, 1, 1) < 0.75)
    curve = draw.between(0.0, 0.5, b, 1, 1) * torch.sqrt((1 - (2 * f / wide) ** 2).clamp_min(0))
    height = torch.maximum(on * step * (0.15 + curve * wide), rail * step * 0.08)
    varied = tone(draw, b, -0.8, 0.8) * (1 + draw.between(0.0, 0.4, b, 1, 1) * (own - 0.5))
    return height, torch.where(on > 0, varied, torch.where(rail > 0, varied * draw.between(0.5, 1.1, b, 1, 1), torch.ones_like(on)))


CORDS = [(nets, 0.12), (meshes, 0.08), (ropes, 0.17), (plaits, 0.07), (baskets, 0.11), (slats, 0.11)]
