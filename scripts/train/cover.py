"""Things that lie over the fabric: rulers, hooks and needles, fingers, labels, cut at the frame or ending in it."""
import torch
import torch.nn.functional as F


def cover(draw, x, fields, mask):
    """Covers a seventh of the patches (b, size, size), 0..1; what is covered is no fabric."""
    b, size = x.shape[0], x.shape[1]
    g = torch.arange(size, device=draw.device).float() - size / 2
    angle, at = draw.uniform(b, 1, 1) * 6.28, draw.noise(b, 1, 1) * 45
    q = g[None, None, :] * torch.cos(angle) + g[None, :, None] * torch.sin(angle) - at
    p = g[None, :, None] * torch.cos(angle) - g[None, None, :] * torch.sin(angle)
    end = torch.where(draw.uniform(b, 1, 1) < 0.5, draw.between(-60.0, 80.0, b, 1, 1), torch.full((b, 1, 1), 1e4, device=draw.device))
    kind = draw.uniform(b, 1, 1)
    thin, thick = draw.between(3.0, 12.0, b, 1, 1), draw.between(14.0, 40.0, b, 1, 1)
    half = torch.where(kind < 0.35, thin, thick)                       # hook or needle; ruler, finger or label
    tip = torch.where(kind < 0.75, 1.0, 0.0)                           # round end, or cut off square
    beyond = (p - end).clamp_min(0)
    away = torch.where(tip > 0, torch.sqrt(q ** 2 + beyond ** 2), torch.maximum(q.abs(), torch.where(beyond > 0, 1e4, 0.0)))
    on = (away < half) & (draw.uniform(b, 1, 1) < 0.14)
    tone, ambient = draw.between(0.05, 0.95, b, 1, 1), draw.between(0.2, 0.7, b, 1, 1)
    tilt = draw.between(-0.8, 0.8, b, 1, 1)
    bulge = ambient + (1 - ambient) * (torch.sqrt((1 - (away / half) ** 2).clamp_min(0.02)) + tilt * q / half).clamp(0, 1.2)
    body = torch.where(kind < 0.75, bulge, torch.ones_like(bulge))
    shine = 0.5 * torch.exp(-((q / half - tilt) / 0.12) ** 2) * (draw.uniform(b, 1, 1) < 0.4) * (kind < 0.5)
    crease = torch.sin(p / draw.between(2.0, 9.0, b, 1, 1) + q * 0.1) > 0.8
    skin = 1 - 0.12 * crease.float() * ((kind > 0.5) & (kind < 0.75))
    step = draw.between(3, 14, b, 1, 1)
    reach = torch.where(torch.remainder(torch.floor(p / step), 5) == 0, 0.1, 0.45)
    tick = ((torch.remainder(p / step, 1) < 0.3) & (q > reach * half) & (kind >= 0.75) & (draw.uniform(b, 1, 1) < 0.8)).float()
    shadow = ((away < half * 1.35 + 3) & ~on & (on.flatten(1).any(1).view(b, 1, 1))).float() * draw.between(0.0, 0.5, b, 1, 1)
    x = torch.where(on, (tone * body * skin * (1 - 0.7 * tick) + shine).clamp(0, 1).expand_as(x), x * (1 - shadow))
    off = F.max_pool2d(on.float()[:, None], 2)
    return x, fields * (1 - off), mask * (1 - off)
