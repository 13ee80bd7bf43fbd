"""Where the yarn runs in one stitch: centrelines as control points in the stitch's own cell.

x in stitch widths from the stitch's middle, y in row heights from the row's lower edge, z in yarn
radii above the middle of the fabric. Every face is drawn with generous random parameters per
patch, each strand pulled out of shape alike in all stitches of a patch, and a small jitter per stitch, because makers,
hooks and yarns differ more than stitches do.
"""
import torch

K = 5  # control points of a strand


class Cells:
    """Random draws for `b` patches of `rows` x `columns` stitches and the strands drawn so far."""

    def __init__(self, b, rows, columns, device, generator, jitter):
        self.b, self.rows, self.columns = b, rows, columns
        self.device, self.generator, self.jitter = device, generator, jitter
        self.strands = []
        self.offset = 0.0  # sideways, so that a leaning stitch has its middle at x = 0
        self.pull = 1.5 * torch.rand(b, 1, 1, device=device, generator=generator) ** 1.5  # how far strands leave their drawn shape
        self.shown = None  # (rows, columns) or (b, 1, 1): which stitches the next strands belong to

    def draw(self, low, high):
        u = torch.rand(self.b, 1, 1, device=self.device, generator=self.generator)
        return low + (high - low) * u

    def pick(self, chance):
        return (self.draw(0.0, 1.0) < chance).float()

    def sign(self):
        return 2.0 * self.pick(0.5) - 1.0

    def each(self, scale):
        """Noise per stitch."""
        return scale * torch.randn(self.b, self.rows, self.columns, device=self.device,
                                   generator=self.generator)

    def strand(self, points, radius=1.0, shown=None):
        """points: five (x, y, z), each a number or a tensor (b, 1, 1) or (b, rows, columns)."""
        shape = (self.b, self.rows, self.columns)
        xyz = [[torch.as_tensor(c, device=self.device, dtype=torch.float32).expand(shape) for c in p]
               for p in points]
        block = torch.stack([torch.stack(p, -1) for p in xyz], 3)
        noise = torch.randn(block.shape, device=self.device, generator=self.generator)
        scale = torch.tensor([0.02, 0.02, 0.12], device=self.device)
        block = block + noise * scale * self.jitter[..., None, None]
        pull = torch.randn(self.b, 1, 1, K, 3, device=self.device, generator=self.generator)
        block = block + pull * torch.tensor([0.05, 0.05, 0.35], device=self.device) * self.pull[..., None, None]
        block[..., 0] += torch.as_tensor(self.offset, device=self.device).expand(shape)[..., None]
        r = torch.as_tensor(radius, device=self.device, dtype=torch.float32).expand(shape)
        thick = torch.randn(self.b, 1, 1, device=self.device, generator=self.generator)
        r = r * (1.0 + 0.05 * self.each(1.0)) * torch.exp(0.09 * self.pull * thick.clamp(-2, 2))
        shown = self.shown if shown is None else shown
        if shown is not None:
            r = torch.where(shown.expand(shape) > 0.5, r, torch.zeros_like(r))
        self.strands.append((block, r))


def loops(c, y, z, spread, lean, radius=1.0, back=True):
    """The chain of top loops: a front and a back strand a stitch, each running on under the next.

    In some fabrics the next row hides them altogether."""
    z = z - 3.0 * c.pick(0.2)
    tilt = lean * c.draw(0.0, 0.3)
    bow = c.draw(0.0, 0.12)
    over = c.draw(0.5, 0.7)
    dive = c.draw(0.2, 1.2)
    c.strand([(-over, y - tilt, z - dive), (-0.28, y - 0.4 * tilt + bow, z), (0.0, y + bow, z + 0.2),
              (0.28, y + 0.4 * tilt + bow, z), (over, y + tilt, z - dive)], radius)
    if back:
        yb, zb = y + spread, z - c.draw(0.0, 1.0)
        c.strand([(-over, yb + tilt, zb - dive), (-0.28, yb + 0.4 * tilt, zb), (0.0, yb, zb + 0.2),
                  (0.28, yb - 0.4 * tilt, zb), (over, yb - tilt, zb - dive)], radius)


def legs(c, base, base_y, spread, top_y, lean, z, radius=1.0, uneven=None):
    """Two legs of a V from the hole below up to the loops; a negative spread difference gives a mushroom."""
    uneven = c.draw(-0.12, 0.12) if uneven is None else uneven
    bow = c.draw(-0.06, 0.1)
    start, end = c.draw(-1.2, 0.6), c.draw(-1.2, 0.4)
    wobble = c.each(0.03) * c.jitter
    for s in (-1.0, 1.0):
        x0, x1 = s * base, s * spread + lean + wobble
        h = top_y * (1.0 + s * uneven)
        c.strand([(x0, base_y, z + start), (x0 + 0.25 * (x1 - x0) + s * bow, base_y + 0.25 * (h - base_y), z + 0.2),
                  (x0 + 0.5 * (x1 - x0) + s * bow, base_y + 0.5 * (h - base_y), z + 0.5),
                  (x0 + 0.78 * (x1 - x0) + 0.6 * s * bow, base_y + 0.78 * (h - base_y), z + 0.3),
                  (x1, h, z + end)], radius)


def single_front(c, ridge=None, lean=None, height=1.0):
    """Front of a single crochet: a leaning V whose foot comes out of the stitch below, loops above."""
    lean = c.draw(-0.3, 0.3) if lean is None else lean
    c.offset = -0.5 * lean
    z = c.draw(0.2, 1.6)
    legs(c, c.draw(0.0, 0.14), c.draw(-0.3, 0.12), c.draw(0.18, 0.42), c.draw(0.62, 1.05) * height, lean, z)
    loops(c, c.draw(0.7, 1.02), z - c.draw(-1.2, 1.6), c.draw(0.06, 0.32), c.sign(), back=True)
    if ridge is not None:
        free_loop(c, ridge)


def single_back(c, ridge=None, lean=None):
    """Back of a single crochet: a short bar under the loops, two legs below it."""
    lean = c.draw(-0.2, 0.2) if lean is None else lean
    c.offset = -0.5 * lean
    z, y = c.draw(0.4, 2.2), c.draw(0.46, 0.9)
    half, arch, slope = c.draw(0.26, 0.62), c.draw(0.0, 0.16), c.draw(-0.14, 0.14)  # wide ones run into a line
    dive = c.draw(0.2, 2.0)
    c.strand([(lean - half, y - slope - 0.08, z - dive), (lean - 0.6 * half, y - 0.5 * slope + 0.6 * arch, z),
              (lean, y + arch, z + 0.5), (lean + 0.6 * half, y + 0.5 * slope + 0.6 * arch, z),
              (lean + half, y + slope - 0.08, z - dive)], c.draw(0.95, 1.15))
    legs(c, c.draw(0.06, 0.34), c.draw(-0.25, 0.15), c.draw(0.06, 0.26), y, lean, z - c.draw(0.2, 1.4))
    loops(c, c.draw(0.84, 1.1), z - c.draw(-0.4, 2.0), c.draw(0.05, 0.25), c.sign(), back=True)
    if ridge is not None:
        free_loop(c, ridge)


def free_loop(c, z):
    """The unworked loop of the row below: a ridge along the row's lower edge."""
    y, bow, slope = c.draw(-0.16, 0.16), c.draw(-0.05, 0.12), c.draw(-0.1, 0.1) * c.pick(0.6)
    over, dive = c.draw(0.5, 0.62), c.draw(0.0, 0.8)
    c.strand([(-over, y - slope, z - dive), (-0.25, y - 0.5 * slope + bow, z), (0.0, y + bow, z + 0.1),
              (0.25, y + 0.5 * slope + bow, z), (over, y + slope, z - dive)], c.draw(0.9, 1.15))


def half_double(c, back, ridge=None, third_loop=0.0, lean=None):
    """Half double crochet: longer legs, one wrap over them, on the back a third loop as a bar."""
    lean = c.draw(-0.3, 0.3) if lean is None else lean
    c.offset = -0.5 * lean
    z, fan = c.draw(0.2, 1.4), c.pick(0.35)  # fan: the legs spread downwards
    foot, top = c.draw(0.0, 0.16), c.draw(0.12, 0.42)
    legs(c, foot + fan * (top - foot), c.draw(-0.2, 0.1), top + fan * (foot - top), c.draw(0.7, 1.02), lean, z)
    steep = c.pick(0.35)  # the wrap lies as a bold stroke across the whole stitch
    wraps(c, 1, c.draw(0.15, 0.45), c.draw(0.5, 0.9), c.draw(0.12, 0.34) + steep * c.draw(0.05, 0.2), lean,
          z + c.draw(0.0, 1.0), torch.maximum(c.pick(0.7), steep), steep * c.draw(0.05, 0.25))
    if back:
        y, half, dive = c.draw(0.55, 0.9), c.draw(0.35, 0.66), c.draw(0.2, 1.5)
        tilt, zz = c.draw(-0.12, 0.12), z + c.draw(0.3, 1.5)
        c.strand([(-half, y - tilt, zz - dive), (-0.6 * half, y - 0.5 * tilt, zz), (0.0, y + 0.03, zz + 0.2),
                  (0.6 * half, y + 0.5 * tilt, zz), (half, y + tilt, zz - dive)])
    loops(c, c.draw(0.8, 1.05), z + c.draw(-1.0, 1.8) - 3.0 * c.pick(0.25), c.draw(0.04, 0.2), c.sign(), back=True)
    if ridge is None and not back and third_loop:
        free_loop(c, c.draw(1.2, 2.8) - 9.0 * (1 - c.pick(third_loop)))  # that of the row below lying as a ridge
    if ridge is not None:
        free_loop(c, ridge)


def wraps(c, count, low, high, half, lean, z, shown=None, steep=0.0):
    """Diagonal wraps across a post, from low left to high right or the other way; `steep`: rise more, row heights."""
    turn = c.sign()
    rise = c.draw(0.05, 0.22) + steep
    for k in range(count):
        y = low + (high - low) * (k + 0.5) / count
        x = lean * y
        c.strand([(x - turn * half, y - rise, z - 1.0), (x - 0.6 * turn * half, y - 0.5 * rise, z + 0.3), (x, y, z + 0.6),
                  (x + 0.6 * turn * half, y + 0.5 * rise, z + 0.3), (x + turn * half, y + rise, z - 1.0)], 1.0, shown)


def post(c, count, ridge=None, lean=None, radius=1.0, lift=0.0):
    """Tall stitch: two strands side by side or crossing, with wraps, under a cord of top loops."""
    lean = c.draw(-0.35, 0.35) if lean is None else lean
    c.offset = -0.5 * lean
    z, half, cross = c.draw(0.0, 1.2) + lift, c.draw(0.06, 0.24), c.sign()
    low, high = c.draw(-0.1, 0.12), c.draw(0.8, 1.0)
    end = c.draw(-1.0, 0.5)
    twist = c.draw(-1.0, 1.0)
    wobble = c.each(0.04) * c.jitter
    for s in (-1.0, 1.0):
        x = s * half
        c.strand([(0.4 * x, low, z + end), (x + 0.25 * lean, low + 0.25 * (high - low), z + 0.2),
                  (x * twist + 0.5 * lean + wobble, low + 0.5 * (high - low), z + 0.5 * s * cross),
                  (x + 0.75 * lean, low + 0.75 * (high - low), z + 0.2), (0.7 * x + lean, high, z + end)], radius)
    if count:
        wraps(c, count, c.draw(0.05, 0.25), c.draw(0.75, 0.98), c.draw(0.14, 0.36), lean, z + c.draw(0.0, 0.8))
    loops(c, c.draw(0.84, 1.06), z + c.draw(-0.8, 2.0), c.draw(0.03, 0.16), c.sign(), back=True)
    if ridge is not None:
        free_loop(c, ridge)


def knit(c, shown=None, lift=0.0):
    """Right side of stockinette: nested Vs."""
    base, spread = c.draw(0.02, 0.13), c.draw(0.2, 0.33)
    middle, tall = c.draw(0.33, 0.41), c.draw(0.85, 1.55)
    low, high = middle - 0.5 * tall, middle + 0.5 * tall
    z, dive = c.draw(0.3, 1.0) + lift, c.draw(0.4, 1.6)
    lean, bow = c.draw(-0.12, 0.12), c.draw(0.0, 0.09)
    left, right = c.draw(0.9, 1.15), c.draw(0.9, 1.15)
    slip = c.draw(-0.12, 0.12)
    for s, radius in ((-1.0, left), (1.0, right)):
        x0, x1, h = s * base, s * spread + lean, high + s * slip
        d = h - low
        c.strand([(x0, low, z - dive), (x0 + 0.3 * (x1 - x0) + s * bow, low + 0.25 * d, z), (x0 + 0.6 * (x1 - x0) + s * bow, low + 0.5 * d, z + 0.3),
                  (x0 + 0.85 * (x1 - x0) + 0.6 * s * bow, low + 0.75 * d, z), (x1, h, z - dive)], radius, shown)
    y, zz = high + c.draw(-0.05, 0.1), z - c.draw(1.2, 2.2)
    c.strand([(-spread, y - 0.1, zz), (-0.6 * spread, y + 0.1, zz), (0.0, y + 0.16, zz), (0.6 * spread, y + 0.1, zz),
              (spread, y - 0.1, zz)], 1.0, shown)


def purl(c, shown=None, lift=0.0):
    """Wrong side of stockinette: heads and feet of the loops as interlocking arcs."""
    half, rise, z = c.draw(0.24, 0.36), c.draw(0.1, 0.3), c.draw(0.6, 1.6) + lift
    y, dive, apart = c.draw(0.4, 0.7), c.draw(0.6, 1.8), c.draw(0.2, 0.55)
    c.strand([(-half, y - rise, z - dive), (-0.75 * half, y + 0.2 * rise, z - 0.2), (0.0, y + rise, z + 0.2),
              (0.75 * half, y + 0.2 * rise, z - 0.2), (half, y - rise, z - dive)], 1.0, shown)
    c.strand([(0.5 - half, y - apart + rise, z - dive), (0.5 - 0.75 * half, y - apart - 0.2 * rise, z - 0.2), (0.5, y - apart - rise, z + 0.1),
              (0.5 + 0.75 * half, y - apart - 0.2 * rise, z - 0.2), (0.5 + half, y - apart + rise, z - dive)], 1.0, shown)


def slip(c, shown=None):
    """Slip stitch or squashed short stitch between tall ones."""
    y, z, half = c.draw(0.2, 0.9), c.draw(-0.5, 1.0), c.draw(0.25, 0.5)
    for k in range(2):
        yy = y - 0.3 * k
        c.strand([(-half, yy - 0.1, z - 1.0), (-0.5 * half, yy, z), (0.0, yy + 0.1, z + 0.3), (0.5 * half, yy, z),
                  (half, yy - 0.1, z - 1.0)], 1.0, shown)
