"""Light on the depth buffer: tubes with plies, ambient occlusion, cast shadows, table in the gaps."""
import math

import torch
import torch.nn.functional as F


def gather(values, index):
    """values (n, c), index (b, h, w) -> (b, h, w, c), zeros where the index is -1."""
    return values[index.clamp_min(0).reshape(-1)].view(*index.shape, values.shape[-1])


def box(x, k):
    k = max(1, int(k)) | 1
    if k == 1:
        return x
    pad = k // 2
    x = F.avg_pool2d(F.pad(x[:, None], (pad, pad, 0, 0), mode="reflect"), (1, k), 1)
    return F.avg_pool2d(F.pad(x, (0, 0, pad, pad), mode="reflect"), (k, 1), 1)[:, 0]


GRIDS = {}


def still(b, size, device):
    """Sampling grid (b, size, size, 2) that changes nothing."""
    key = (size, device)
    if key not in GRIDS:
        g = (torch.arange(size, device=device).float() * 2 + 1) / size - 1
        GRIDS[key] = torch.stack([g[None, :].expand(size, size), g[:, None].expand(size, size)], -1)[None]
    return GRIDS[key].expand(b, size, size, 2)


def shifted(x, shift):
    """x (b, h, w) read at the pixel plus `shift` (b, 2) pixels."""
    b, h, w = x.shape
    grid = still(b, w, x.device) + (2 * shift / w).view(b, 1, 1, 2)
    return F.grid_sample(x[:, None], grid, mode="nearest", padding_mode="border", align_corners=False)[:, 0]


def texture(draw, b, size):
    """Table: plain, grained like wood, or speckled; mean about 1."""
    coarse = draw.noise(b, 1, size // 4, 6)
    fine = draw.noise(b, 1, size // 2, 20)
    grain = (F.interpolate(coarse, size=(2 * size, 2 * size), mode="bilinear", align_corners=False)
             + 0.6 * F.interpolate(fine, size=(2 * size, 2 * size), mode="bilinear", align_corners=False))
    angle, scale = draw.uniform(b) * 6.28, draw.between(0.15, 0.6, b)
    c, s = torch.cos(angle) * scale, torch.sin(angle) * scale
    g = still(b, size, draw.device)
    c, s = c.view(b, 1, 1), s.view(b, 1, 1)
    grid = torch.stack([c * g[..., 0] - s * g[..., 1], s * g[..., 0] + c * g[..., 1]], -1)
    grain = F.grid_sample(grain, grid, align_corners=False, padding_mode="reflection")[:, 0]
    speck = F.interpolate(draw.noise(b, 1, size // 2, size // 2), size=(size, size), mode="bilinear", align_corners=False)[:, 0]
    kind = draw.uniform(b, 1, 1)
    strength = draw.between(0.0, 0.25, b, 1, 1)
    out = 1 + strength * torch.where(kind < 0.45, grain, torch.where(kind < 0.7, speck, 0 * speck))
    return out.clamp(0.1, 3)


def shelter(d, radius, light, strength, soft=3):
    """How much ambient light reaches the surface of depth d (b, h, w), and how much of the light (b, 3) does: 0 to 1.
    radius (b,): half the thickness of what casts shadows, px."""
    shape = (-1, 1, 1)
    mean_r = float(radius.mean())
    occlusion = 0.6 * (box(d, 1.6 * mean_r) - d).clamp_min(0) + 0.7 * (box(d, 5 * mean_r) - d).clamp_min(0)
    ao = torch.exp(-strength.view(shape) * occlusion / radius.view(shape))
    flat = light[:, :2].norm(dim=-1).clamp_min(1e-3)
    direction, slope = light[:, :2] / flat[:, None], light[:, 2] / flat
    free = torch.ones_like(d)
    for step in (0.6, 1.2, 2.0, 3.2, 5.0):
        move = step * radius
        above = shifted(d, direction * move[:, None]) - d - (move * slope).view(shape)
        free = free * (1 - (above / (0.4 * radius.view(shape)) - 0.2).clamp(0, 1))
    return ao, box(free, soft)


def tube(draw, index, depth, points, tangent, arc, lum, radius, size, style):
    """Luminance of the picture (b, size, size), linear."""
    b = index.shape[0]
    hit = index >= 0
    attr = gather(torch.cat([points, tangent, arc[:, None], lum[:, None]], 1), index)
    centre, r, t, s, albedo = attr[..., :3], attr[..., 3].clamp_min(1e-3), attr[..., 4:7], attr[..., 7], attr[..., 8]
    grid = torch.arange(size, device=depth.device).float() + 0.5
    pixel = torch.stack([grid[None, None, :].expand(b, size, size), grid[None, :, None].expand(b, size, size), depth], -1)
    n = (pixel - centre) / r[..., None]
    n = F.normalize(n - (n * t).sum(-1, keepdim=True) * t, dim=-1)
    side = F.normalize(torch.stack([t[..., 1], -t[..., 0], torch.zeros_like(s)], -1) + 1e-6, dim=-1)
    up = torch.cross(side, t, dim=-1)
    up = up * torch.sign(up[..., 2:3] + 1e-9)
    phi = torch.atan2((n * side).sum(-1), (n * up).sum(-1))
    shape = (b, 1, 1)
    plies, lag, groove = style["plies"].view(shape), style["lag"].view(shape), style["groove"].view(shape)
    psi = plies * phi + 2 * math.pi * s / (lag * radius.view(shape))
    other = plies * phi - 2 * math.pi * s / (lag * radius.view(shape))  # of cords that are braided or knitted themselves
    cord = style["cord"].view(shape)
    tilt = groove * 0.8 * torch.sin(psi) * (1 - cord * (torch.cos(other) > 0))
    n = F.normalize(n + tilt[..., None] * side, dim=-1)
    ply = torch.cos(psi / 2).abs() * (1 - cord * (1 - torch.cos(other / 2).abs()))
    dark = 1 - groove * (1 - ply) ** 2
    light = style["light"]
    lit = (n * light[:, None, None]).sum(-1)
    wrap = style["wrap"].view(shape)
    diffuse = ((lit + wrap) / (1 + wrap)).clamp_min(0)
    half = F.normalize(light + torch.tensor([0.0, 0.0, 1.0], device=light.device), dim=-1)
    gloss = style["gloss"].view(shape) * (n * half[:, None, None]).sum(-1).clamp_min(0) ** 20
    table_depth = (-style["table_depth"] * radius).view(shape)
    d = torch.where(hit, depth, table_depth.expand_as(depth))
    ao, free = shelter(d, radius, light, style["ao"])
    free = 1 - style["shadow"].view(shape) * (1 - free)
    ambient = style["ambient"].view(shape)
    rim = 1 + style["velvet"].view(shape) * ((1 - n[..., 2].clamp(0, 1)) ** 1.5 - 0.35)
    yarn = albedo * dark * rim * (ambient * ao + (1 - ambient) * diffuse * free) + gloss * free
    table = style["table"].view(shape) * style["texture"] * (ambient * ao + (1 - ambient) * light[:, 2].view(shape) * free)
    return torch.where(hit, yarn, table), hit


def look(draw, b, size):
    """Random yarn, light and table."""
    elevation, azimuth = draw.between(0.35, 1.5, b), draw.uniform(b) * 6.28
    elevation = torch.where(draw.uniform(b) < 0.1, draw.between(0.15, 0.4, b), elevation)  # oblique
    velvet = draw.between(0.3, 1.4, b) * (draw.uniform(b) < 0.12)  # pile yarn, bright at its edges, without plies
    light = torch.stack([torch.cos(azimuth) * torch.cos(elevation), torch.sin(azimuth) * torch.cos(elevation), torch.sin(elevation)], -1)
    choice = torch.tensor([2.0, 3.0, 4.0, 6.0, 9.0, 1.0], device=draw.device)
    plies = choice[(draw.uniform(b) * 6).long().clamp(0, 5)]
    groove = draw.between(0.0, 0.75, b) * (draw.uniform(b) < 0.8) * (velvet == 0)
    return {"light": light, "plies": plies, "lag": draw.between(3.0, 9.0, b) * plies.clamp(1, 4) / 2 * torch.sign(draw.noise(b)),
            "groove": groove, "cord": (draw.uniform(b) < 0.15).float(), "velvet": velvet, "wrap": draw.between(0.0, 0.7, b), "gloss": draw.between(0.0, 0.12, b) * (draw.uniform(b) < 0.4),
            "table_depth": draw.between(1.0, 3.0, b), "ao": draw.between(0.2, 1.6, b), "shadow": draw.between(0.2, 1.0, b),
            "ambient": draw.between(0.15, 0.75, b), "table": torch.exp(draw.between(-3.5, 0.0, b)),
            "texture": texture(draw, b, size)}


GAUSS = {}


def gaussian(x, sigma):
    key = (sigma, x.device)
    if key not in GAUSS:
        n = max(1, int(3 * sigma + 0.5))
        k = torch.exp(-0.5 * (torch.arange(-n, n + 1).float() / sigma) ** 2)
        GAUSS[key] = (k / k.sum()).to(x.device)
    k = GAUSS[key]
    n = len(k) // 2
    x = F.conv2d(F.pad(x[:, None], (n, n, n, n), mode="reflect"), k[None, None, :, None])
    return F.conv2d(x, k[None, None, None, :])[:, 0]


def blurred(x, sigma):
    """Per-patch Gaussian blur (b,), by interpolation between fixed ones."""
    levels = [0.0, 0.7, 1.4, 2.4, 4.0]
    stack = [x] + [gaussian(x, s) for s in levels[1:]]
    out = torch.zeros_like(x)
    for k, level in enumerate(levels):
        low = levels[k - 1] if k else -1.0
        high = levels[k + 1] if k + 1 < len(levels) else 9.0
        w = torch.where(sigma < level, 1 - (level - sigma) / (level - low), 1 - (sigma - level) / (high - level)).clamp(0, 1)
        out = out + w.view(-1, 1, 1) * stack[k]
    return out


def dct_matrix(device):
    k, n = torch.arange(8).float()[:, None], torch.arange(8).float()[None]
    m = torch.cos(math.pi * (2 * n + 1) * k / 16) * 0.5
    m[0] = m[0] / math.sqrt(2)
    return m.to(device)


def block_loss(draw, x, strength):
    """Coarse quantisation of 8 x 8 cosine blocks, as lossy picture files do. x 0..1, strength (b,) 0..1."""
    b, h, w = x.shape
    m = dct_matrix(x.device)
    blocks = x.view(b, h // 8, 8, w // 8, 8).permute(0, 1, 3, 2, 4)
    c = m @ blocks @ m.t()
    k = torch.arange(8, device=x.device).float()
    q = (0.012 + 0.011 * (k[:, None] + k[None])) * strength.view(b, 1, 1, 1, 1) * 1.6 + 1e-4
    c = torch.round(c / q) * q
    out = m.t() @ c @ m
    return out.permute(0, 1, 3, 2, 4).reshape(b, h, w)


def photograph(draw, linear, size, pitch):
    """Linear luminance on a canvas -> what a phone stores, 0..1, at size x size."""
    b, canvas = linear.shape[0], linear.shape[1]
    sigma = torch.where(draw.uniform(b) < 0.75, draw.between(0.0, 0.05, b), draw.between(0.04, 0.11, b)) * pitch * canvas / size
    x = blurred(linear, sigma.clamp(0, 4.0))
    x = F.interpolate(x[:, None], size=(size, size), mode="area")[:, 0]
    yy = torch.linspace(-1, 1, size, device=x.device)
    g = draw.noise(b, 2) * 0.25 * (draw.uniform(b, 1) < 0.5)
    x = x * torch.exp(g[:, 0].view(b, 1, 1) * yy[None, None] + g[:, 1].view(b, 1, 1) * yy[None, :, None])
    mean = x.mean((1, 2), keepdim=True).clamp_min(1e-4)
    target = torch.exp(draw.between(math.log(0.015), math.log(0.5), b)).view(b, 1, 1)
    x = (x / mean * target).clamp(0, 1.0) ** (1 / draw.between(1.7, 2.6, b)).view(b, 1, 1)
    lift = draw.between(0.0, 0.15, b).view(b, 1, 1) * (draw.uniform(b, 1, 1) < 0.4)
    x = x * (1 - lift) + lift
    noise = draw.noise(b, size, size)
    grainy = gaussian(noise, 0.7) * 2.2
    noise = torch.where(draw.uniform(b, 1, 1) < 0.5, noise, grainy)
    level = torch.exp(draw.between(math.log(0.001), math.log(0.035), b)).view(b, 1, 1)
    x = x + noise * level * (0.4 + 0.6 * x)
    lossy = block_loss(draw, x, draw.uniform(b) ** 3)
    x = torch.where(draw.uniform(b, 1, 1) < 0.45, lossy, x)
    return (x.clamp(0, 1) * 255).round() / 255


def normalise(x, window=49, floor=0.008):
    """Local mean and contrast removed; the run-time program does exactly the same."""
    mean = box(x, window)
    spread = torch.sqrt(box((x - mean) ** 2, window) + floor ** 2)
    return ((x - mean) / spread).clamp(-3, 3)
