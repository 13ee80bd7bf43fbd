"""Train the network that names the stitch on endless random renders.

    python3 train_family.py --out FOLDER --seconds 540 [--start checkpoint.pt] [--seed 1]

Writes FOLDER/family.pt (moving average of the weights) every half minute and at the end, and FOLDER/family-log.txt.
"""
import argparse
import copy
import math
import os
import time

import torch
import torch.nn.functional as F

from family_network import FamilyNetwork
from family_patches import SHAPES, SIDE, batch
from network import FAMILIES
from rendering import Renderers, Store, finite_gradients

WAY_WEIGHT = 0.3  # of the way of working in the loss; not swept
CROP = 160
SMOOTH = 0.06  # of the label, so that no face is said to be certain; not swept


def mean_logits(kinds, mask):
    """Logits (n, c, s, s) averaged over the fabric of the mask (n, 1, 8 s, 8 s)."""
    weight = F.avg_pool2d(mask, mask.shape[-1] // kinds.shape[-1])
    return (kinds * weight).sum((2, 3)) / weight.sum((2, 3)).clamp_min(1.0)


def losses(kinds, mask, family, way):
    """Cross entropies of family and way of working, and the part of right families."""
    mean = mean_logits(kinds.float(), mask)
    n = len(FAMILIES)
    seen = mask.mean((1, 2, 3)) > 0.1
    family, way = torch.where(seen, family, -1), torch.where(seen, way, -1)
    of_family = F.cross_entropy(mean[:, :n], family, ignore_index=-1, label_smoothing=SMOOTH)
    of_way = F.cross_entropy(mean[:, n:], way, ignore_index=-1, reduction="sum") / (way >= 0).sum().clamp_min(1)
    right = ((mean[:, :n].argmax(1) == family) & seen).sum() / seen.sum().clamp_min(1)
    return of_family, of_way, right


def drawn(store, n):
    """n random patches, cropped to CROP pixels, mirrored left to right and with some more noise."""
    x, mask, family, way = store.draw(n)
    dx, dy = (2 * int(v) for v in torch.randint((SIDE - CROP) // 2 + 1, (2,)))
    x = x[:, dy:dy + CROP, dx:dx + CROP].float()
    mask = mask[:, :, dy // 2:(dy + CROP) // 2, dx // 2:(dx + CROP) // 2].float()
    mirror = torch.rand(n, device=x.device) < 0.5
    x = torch.where(mirror[:, None, None], x.flip(2), x)
    mask = torch.where(mirror[:, None, None, None], mask.flip(3), mask)
    strength = torch.rand(n, 1, 1, device=x.device) ** 2 * 0.3
    return x + strength * torch.randn_like(x), mask, family, way


def arguments():
    parser = argparse.ArgumentParser()
    parser.add_argument("--out", required=True)
    parser.add_argument("--seconds", type=float, default=540)
    parser.add_argument("--start")
    parser.add_argument("--groups", type=int, default=4, help="sub-batches taken in a step at most")
    parser.add_argument("--batch", type=int, default=512)
    parser.add_argument("--store", type=int, default=300000, help="patches kept (about 84 KB each)")
    parser.add_argument("--first", type=int, default=8000)
    parser.add_argument("--patches", type=int, default=32)
    parser.add_argument("--rate", type=float, default=3e-3)
    parser.add_argument("--workers", type=int, default=24)
    parser.add_argument("--seed", type=int, default=101)
    return parser.parse_args()


def optimiser_of(net, rate):
    decay = [p for p in net.parameters() if p.dim() > 1]
    rest = [p for p in net.parameters() if p.dim() <= 1]
    return torch.optim.AdamW([{"params": decay, "weight_decay": 0.02}, {"params": rest, "weight_decay": 0.0}], lr=rate)


def main():
    a = arguments()
    device = "cuda" if torch.cuda.is_available() else "cpu"
    torch.manual_seed(a.seed)
    torch.backends.cudnn.benchmark = True
    renderers = Renderers(a.workers, batch, SHAPES, a.seed, a.patches, 64, beside=12)
    net = FamilyNetwork().to(device, memory_format=torch.channels_last)
    if a.start:
        net.load_state_dict(torch.load(a.start, map_location=device))
    average = copy.deepcopy(net)
    optimiser = optimiser_of(net, a.rate)
    store = Store(a.store // a.patches * a.patches, SHAPES, device)
    while store.count < a.first:  # the clock starts when there is something to learn from
        store.add(renderers, renderers.ready(wait=True))
    os.makedirs(a.out, exist_ok=True)
    log = open(os.path.join(a.out, "family-log.txt"), "a")
    kept = [t for t in average.state_dict().values() if t.is_floating_point()]
    live = [t for t in net.state_dict().values() if t.is_floating_point()]
    begin, step, saved, sums = time.time(), 0, time.time(), torch.zeros(3, device=device)

    def save():
        if not all(bool(torch.isfinite(t).all()) for t in kept):
            return print("weights that are no numbers: not saved", flush=True)
        torch.save({k: v.float().cpu() if v.is_floating_point() else v.cpu() for k, v in average.state_dict().items()},
                   os.path.join(a.out, "family.pt"))

    while time.time() - begin < a.seconds:
        rate = a.rate * (0.5 + 0.5 * math.cos(math.pi * (time.time() - begin) / a.seconds))
        for group in optimiser.param_groups:
            group["lr"] = rate * min(1.0, (step + 1) / 200) + 1e-6
        for _ in range(a.groups):
            fresh = renderers.ready(wait=False)
            if fresh is None:
                break
            store.add(renderers, fresh)
        x, mask, family, way = drawn(store, a.batch)
        with torch.autocast(device, dtype=torch.bfloat16, enabled=device == "cuda"):
            kinds = net(x[:, None].contiguous(memory_format=torch.channels_last))
        parts = losses(kinds, mask, family, way)
        optimiser.zero_grad(set_to_none=True)
        (parts[0] + WAY_WEIGHT * parts[1]).backward()
        finite_gradients(net, torch.nn.utils.clip_grad_norm_(net.parameters(), 1.0))
        optimiser.step()
        step += 1
        with torch.no_grad():
            share = max(0.001, 1 / (step + 1))
            torch._foreach_mul_(kept, 1 - share)
            torch._foreach_add_(kept, live, alpha=share)
            sums += torch.stack([p.detach().float() for p in parts])
        if step % 250 == 0:
            line = "%6.1f s  step %d  rendered %d  family %.4f  way %.4f  right %.3f" % (
                time.time() - begin, step, store.seen, *(sums / 250).tolist())
            sums.zero_()
            print(line, flush=True)
            log.write(line + "\n")
            log.flush()
        if time.time() - saved > 30:
            save()
            saved = time.time()
    save()
    for process in renderers.processes:
        process.terminate()


if __name__ == "__main__":
    main()
