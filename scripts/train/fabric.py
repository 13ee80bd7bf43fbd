"""A batch of fabric patches: cells laid out, bent, splatted; with the truth at every pixel."""
import math

import torch
import torch.nn.functional as F

from recipes import RATIO, THIN, TURNED, chance, face
from stitches import Cells, K


def spline(m, device):
    """Matrices (m, K) of positions and derivatives of the Catmull-Rom curve through K points."""
    position, derivative = torch.zeros(m, K), torch.zeros(m, K)
    for n in range(m):
        t = n / (m - 1) * (K - 1)
        a = min(int(t), K - 2)
        f = t - a
        w = [-0.5 * f + f * f - 0.5 * f ** 3, 1 - 2.5 * f * f + 1.5 * f ** 3, 0.5 * f + 2 * f * f - 1.5 * f ** 3,
             -0.5 * f * f + 0.5 * f ** 3]
        d = [-0.5 + 2 * f - 1.5 * f * f, -5 * f + 4.5 * f * f, 0.5 + 4 * f - 4.5 * f * f, -f + 1.5 * f * f]
        for k in range(4):
            index = min(max(a - 1 + k, 0), K - 1)
            position[n, index] += w[k]
            derivative[n, index] += d[k]
    return position.to(device), derivative.to(device)


class Layout:
    """Maps between the lattice (stitch, row) and the canvas, for a batch of patches.

    unevenness, rowshift, lean: in stitches; bend: 0 to 1; paired: rows by which every second row is moved, as in
    turned work whose rows lie in pairs."""

    def __init__(self, draw, sw, rh, angle, size, half_i, half_j, unevenness, rowshift, lean, bend, paired):
        b, device = sw.shape[0], sw.device
        self.b, self.size, self.half_i, self.half_j = b, size, half_i, half_j
        c, s = torch.cos(angle), torch.sin(angle)
        self.a = torch.stack([torch.stack([c * sw, s * rh], -1), torch.stack([s * sw, -c * rh], -1)], 1)
        self.a_inverse = torch.inverse(self.a)
        self.origin = size / 2 + self.a.sum(2) * (draw.noise(b, 1) * 0.5)
        j = torch.arange(2 * half_j + 3, device=device).float() - half_j - 1
        self.shift = lean[:, None] * j + rowshift[:, None] * draw.noise(b, len(j))
        white = draw.noise(b, 2, 2 * half_j + 3, 2 * half_i + 3)
        smooth = F.avg_pool2d(F.pad(white, (2, 2, 2, 2), mode="replicate"), 5, 1) * 5
        rows = draw.noise(b, 2, 2 * half_j + 3, 1) * torch.tensor([0.0, 0.6], device=device)[None, :, None, None]
        self.noise = unevenness[:, None, None, None] * (0.55 * white + 0.6 * smooth + rows)
        self.noise[:, 1] += paired.view(b, 1, 1) * (1 - 2 * torch.remainder(j + half_j + 1, 2)).view(1, -1, 1)
        self.noise = self.noise.clamp(-0.28, 0.28)
        self.bend = bend * draw.noise(b, 6) * torch.tensor([0.13, 0.10, 0.13, 0.08, 0.06, 0.06], device=device)
        wave = draw.uniform(b, 2, 2) * 2 - 1
        self.wave = wave / wave.norm(dim=-1, keepdim=True).clamp_min(0.2) * (2 * math.pi / (size * (0.5 + 1.2 * draw.uniform(b, 2, 1))))
        self.wave_phase = draw.uniform(b, 2) * 6.28
        self.wave_size = bend[:, :, None] * 0.035 * size * draw.noise(b, 2, 2) * 0.35

    def row_shift(self, v):
        """Sideways shift of the rows at v (b, n): constant over a row, quick change at its edges."""
        j = torch.floor(v)
        f = v - j
        index = (j + self.half_j + 1).long().clamp(1, self.shift.shape[1] - 2)
        here = torch.gather(self.shift, 1, index)
        below, above = torch.gather(self.shift, 1, index - 1), torch.gather(self.shift, 1, index + 1)
        low, high = (0.5 - f / 0.3).clamp(0, 0.5), ((f - 0.85) / 0.3).clamp(0, 0.5)
        return here * (1 - low - high) + below * low + above * high

    def uneven(self, u, v):
        grid = torch.stack([u / (self.half_i + 1), v / (self.half_j + 1)], -1)[:, :, None]
        d = F.grid_sample(self.noise, grid, align_corners=True, padding_mode="border")[..., 0]
        return d[:, 0], d[:, 1]

    def warp(self, q):
        """Gentle curves, fanning and perspective: displacement in pixels at canvas positions q (b, n, 2)."""
        h = self.size / 2
        x, y = (q[..., 0] - h) / h, (q[..., 1] - h) / h
        k = [self.bend[:, n:n + 1] * h for n in range(6)]
        dx = k[0] * x * y * 0.8 + k[4] * x * x + k[3] * y * y
        dy = k[1] * x * x + k[2] * x * y * 0.5 + k[5] * y * y
        for n in range(2):
            phase = (q * self.wave[:, n][:, None]).sum(-1) + self.wave_phase[:, n:n + 1]
            dx = dx + self.wave_size[:, n, 0:1] * torch.sin(phase)
            dy = dy + self.wave_size[:, n, 1:2] * torch.sin(phase)
        return torch.stack([dx, dy], -1)

    def canvas_from_lattice(self, u, v, row=None):
        """`row`, of the stitch that a point belongs to, matters on discs only."""
        u = u + self.row_shift(v)
        du, dv = self.uneven(u, v)
        q = torch.stack([u + du, v + dv], -1) @ self.a.transpose(1, 2) + self.origin[:, None]
        return q + self.warp(q)

    def even_lattice_from(self, p):
        """Where points would lie in the lattice if no stitch were uneven."""
        q = p - self.warp(p)
        for _ in range(5):
            q = p - self.warp(q)
        return (q - self.origin[:, None]) @ self.a_inverse.transpose(1, 2)

    def lattice_from_canvas(self, p):
        t = self.even_lattice_from(p)
        u, v = t[..., 0], t[..., 1]
        for _ in range(7):
            du, dv = self.uneven(u, v)
            u, v = t[..., 0] - du, t[..., 1] - dv
        return u - self.row_shift(v), v


class DiscLayout(Layout):
    """A disc worked in rounds, seen from above; its plane positions q are those of the unrolled picture.

    As in src/disc: columns are angles, true to scale at the rim; rows are distances from the centre. Rounds
    nearer to the centre have fewer stitches, so their stitches are wider there. middle, rim: radii in pixels of
    the unrolled picture's middle row and of the rim."""

    def __init__(self, *arguments, middle, rim):
        super().__init__(*arguments)
        self.middle, self.rim = middle, rim
        self.row_px = self.a.norm(dim=1)[:, 1]

    def stretch(self, row):
        radius = self.middle[:, None] + (self.size / 2 - self.origin[:, 1:2]) + (row + 0.5) * self.row_px[:, None]
        return self.rim[:, None] / radius.clamp_min(2.0 * self.row_px[:, None])

    def canvas_from_strip(self, q):
        angle = (q[..., 0] - self.size / 2) / self.rim[:, None]
        radius = self.middle[:, None] + self.size / 2 - q[..., 1]
        return torch.stack([self.size / 2 + radius * torch.sin(angle),
                            self.size / 2 + self.middle[:, None] - radius * torch.cos(angle)], -1)

    def canvas_from_lattice(self, u, v, row=None):
        u = u + self.row_shift(v)
        du, dv = self.uneven(u, v)
        row = torch.floor(v) if row is None else row
        q = torch.stack([(u + du) * self.stretch(row), v + dv], -1) @ self.a.transpose(1, 2) + self.origin[:, None]
        return self.canvas_from_strip(q + self.warp(q))

    def lattice_from_canvas(self, p):
        """Of positions in the unrolled picture."""
        t = self.even_lattice_from(p)
        u, v = t[..., 0], t[..., 1]
        for _ in range(7):
            du, dv = self.uneven(u, v)
            v = t[..., 1] - dv
            u = t[..., 0] / self.stretch(torch.floor(v)) - du
        return u - self.row_shift(v), v


class Draw:
    def __init__(self, device, seed):
        self.device = device
        self.generator = torch.Generator(device=device).manual_seed(seed)
        self.coin = torch.Generator().manual_seed(seed)

    def uniform(self, *shape):
        return torch.rand(*shape, device=self.device, generator=self.generator)

    def between(self, low, high, *shape):
        return low + (high - low) * self.uniform(*shape)

    def noise(self, *shape):
        return torch.randn(*shape, device=self.device, generator=self.generator)

    def toss(self):
        return float(torch.rand(1, generator=self.coin))

    def choose(self, weights):
        return int(torch.multinomial(torch.tensor(weights, dtype=torch.float32), 1, generator=self.coin))


def strands_of(draw, family, worked, other, rows, columns, b, jitter):
    """Lists of (row indices, control points (b, rows, columns, K, 3), radius) of all strands."""
    out = []
    faces = [(slice(0, None, 2), False), (slice(1, None, 2), True)]
    if worked == "round" and not (family == "other" and other in TURNED):
        faces = [(slice(0, None, 1), False)]
    sunk = draw.between(-1.6, 1.6, b, 1, 1, 1) * (draw.uniform(b, 1, 1, 1) < 0.4)  # rows of one face lie lower
    for part, back in faces:
        index = torch.arange(rows, device=draw.device)[part]
        cells = Cells(b, len(index), columns, draw.device, draw.generator, jitter)
        cells.coin = draw.coin
        face(family, back, cells, other, worked)
        for block, r in cells.strands:
            if back:
                block[..., 2] += sunk
            out.append((index, block, r))
    return out


def weave(draw, b, rows, columns):
    """Cloth, cane and open nets: no stitches; a trap."""
    cells = Cells(b, rows, columns, draw.device, draw.generator, draw.between(0.0, 0.6, b, 1, 1))
    cells.coin = draw.coin
    i = torch.arange(columns, device=draw.device)[None, None, :]
    j = torch.arange(rows, device=draw.device)[None, :, None]
    up = torch.where((i + j) % 2 == 0, 1.0, -1.0).float().expand(1, rows, columns)
    w1, w2 = cells.draw(0.8, 1.5), cells.draw(0.8, 1.5)
    if chance(cells, 0.35):  # two over two: twill
        up = torch.where(torch.remainder(i + j, 4) < 2, 1.0, -1.0).float().expand(1, rows, columns)
    x = [-0.5, -0.25, 0.0, 0.25, 0.5]
    z = [0.0, 0.7, 1.0, 0.7, 0.0]
    cells.strand([(a, 0.5, up * h) for a, h in zip(x, z)], w1)
    cells.strand([(0.0, 0.5 + a, -up * h) for a, h in zip(x, z)], w2)
    return [(torch.arange(rows, device=draw.device), block, r) for block, r in cells.strands]


def lay(draw, layout, strands, radius, samples, family, inside):
    """Sample the strands. Returns points (n, 4), patch (n,), and per point tangent, arc length, lattice u, v."""
    position, derivative = spline(samples, draw.device)
    b, sw = layout.b, layout.a
    columns = 2 * layout.half_i + 1
    points, patches, tangents, arcs, us, vs = [], [], [], [], [], []
    for index, block, r in strands:
        p = torch.einsum("mk,bjikc->bjimc", position, block)
        d = torch.einsum("mk,bjikc->bjimc", derivative, block)
        i = (torch.arange(columns, device=draw.device) - layout.half_i).float()[None, None, :, None]
        j = (index - layout.half_j).float()[None, :, None, None]
        shape = p.shape[:-1]
        u, v = (p[..., 0] + i).reshape(b, -1), (p[..., 1] + j).reshape(b, -1)
        xy = layout.canvas_from_lattice(u, v, j.expand(shape).reshape(b, -1))
        rr = radius[:, None, None] * r
        keep = inside(i.expand(b, len(index), columns, 1), j.expand(b, len(index), columns, 1))
        rr = (rr * keep[..., 0])[..., None].expand(shape).reshape(b, -1)
        z = (p[..., 2] * radius[:, None, None, None]).reshape(b, -1)
        points.append(torch.stack([xy[..., 0], xy[..., 1], z, rr], -1))
        dxy = d[..., :2].reshape(b, -1, 2) @ sw.transpose(1, 2)
        dz = (d[..., 2] * radius[:, None, None, None]).reshape(b, -1, 1)
        t = torch.cat([dxy, dz], -1)
        length = t.norm(dim=-1, keepdim=True).clamp_min(1e-6)
        tangents.append(t / length)
        step = length.view(shape) * (K - 1) / (samples - 1)
        arcs.append((torch.cumsum(step, -1) + 50 * draw.uniform(*shape[:3], 1)).reshape(b, -1))
        us.append(u)
        vs.append(v)
    points = torch.cat(points, 1)
    n = points.shape[1]
    patch = torch.arange(b, device=draw.device, dtype=torch.int32)[:, None].expand(b, n)
    flat = [torch.cat(t, 1) for t in (tangents, arcs, us, vs)]
    return points, patch, flat


def ratio_of(draw, family, b):
    low, high = RATIO.get(family, (0.7, 1.4))
    return draw.between(low, high, b)


def radius_of(draw, family, sw):
    b = sw.shape[0]
    if family == "net":  # from close cloth to nets
        return sw / torch.exp(draw.between(math.log(3.6), math.log(16.0), b))
    low, high = THIN.get(family, (3.7, 5.8))
    thick = torch.where(draw.uniform(b) < 0.1, draw.between(0.78, 0.95, b), torch.ones(1, device=sw.device))
    return sw / (draw.between(low, high, b) * thick)
