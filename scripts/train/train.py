"""Train the recogniser on endless random renders.

    python3 train.py --out FOLDER --seconds 540 [--start checkpoint.pt] [--batch 320] [--seed 1]

With --scout the small network is trained; with --teacher phase-fields.onnx it learns what that network says besides the
truth.

Writes FOLDER/weights.pt (moving average of the weights) every minute and at the end, and FOLDER/log.txt.
"""
import argparse
import copy
import math
import os
import time

import torch
import torch.nn.functional as F

from network import FAMILIES, SCOUT_WIDTHS, WIDTHS, Network
from patches import SIZE, batch
from rendering import Renderers, Store, finite_gradients
from restart import load as load_exported

HALF = SIZE // 2
SHAPES = [((SIZE, SIZE), torch.float16), ((4, HALF, HALF), torch.float16), ((1, HALF, HALF), torch.uint8),
          ((), torch.int64), ((), torch.int64)]


def losses(fields, kinds, target, mask, family, way):
    """Mean squared error of the phase fields, cross entropies of mask, family and way of working."""
    fields, kinds = fields.float(), kinds.float()
    phase = ((fields[:, :4] - target) ** 2).sum(1).mean()
    cover = F.binary_cross_entropy_with_logits(fields[:, 4:], mask)
    weight = F.avg_pool2d(mask, 4)
    mean = (kinds * weight).sum((2, 3)) / weight.sum((2, 3)).clamp_min(1.0)
    n = len(FAMILIES)
    family_loss = F.cross_entropy(mean[:, :n], family, ignore_index=-1, reduction="sum") / (family >= 0).sum().clamp_min(1)
    way_loss = F.cross_entropy(mean[:, n:], way, ignore_index=-1, reduction="sum") / (way >= 0).sum().clamp_min(1)
    right = ((mean[:, :n].argmax(1) == family) & (family >= 0)).sum() / (family >= 0).sum().clamp_min(1)
    return phase, cover, family_loss, way_loss, right


def taught(fields, kinds, teacher, x):
    """How far the outputs are from the teacher's: fields (phases and mask) and kinds."""
    with torch.no_grad():
        said, named = (t.float() for t in teacher(x))
    fields, kinds = fields.float(), kinds.float()
    phase = ((fields[:, :4] - said[:, :4]) ** 2).sum(1).mean()
    cover = F.binary_cross_entropy_with_logits(fields[:, 4:], torch.sigmoid(said[:, 4:]))
    return phase, cover, ((kinds - named) ** 2).mean()


def drawn(store, n, crop):
    """n random patches, cropped to `crop` pixels, mirrored left to right and with some more noise."""
    x, fields, mask, family, way = store.draw(n)
    device = x.device
    dx, dy = (2 * int(v) for v in torch.randint((SIZE - crop) // 2 + 1, (2,)))
    x = x[:, dy:dy + crop, dx:dx + crop].float()
    h, w, c = dy // 2, dx // 2, crop // 2
    fields, mask = fields[:, :, h:h + c, w:w + c].float(), mask[:, :, h:h + c, w:w + c].float()
    mirror = torch.rand(n, device=device) < 0.5
    x = torch.where(mirror[:, None, None], x.flip(2), x)
    sign = torch.tensor([1.0, -1.0, 1.0, 1.0], device=device)[None, :, None, None]
    fields = torch.where(mirror[:, None, None, None], fields.flip(3) * sign, fields)
    mask = torch.where(mirror[:, None, None, None], mask.flip(3), mask)
    strength = torch.rand(n, 1, 1, device=device) ** 2 * 0.3
    return x + strength * torch.randn_like(x), fields, mask, family, way


def main():
    arguments = argparse.ArgumentParser()
    arguments.add_argument("--out", required=True)
    arguments.add_argument("--seconds", type=float, default=540)
    arguments.add_argument("--start")
    arguments.add_argument("--scout", action="store_true")
    arguments.add_argument("--teacher", help="exported weights of the large network")
    arguments.add_argument("--groups", type=int, default=2, help="sub-batches taken in a step at most")
    arguments.add_argument("--batch", type=int, default=320)
    arguments.add_argument("--crop", type=int, default=160)
    arguments.add_argument("--store", type=int, default=160000, help="patches kept (about 160 KB each)")
    arguments.add_argument("--first", type=int, default=4000)
    arguments.add_argument("--patches", type=int, default=32)
    arguments.add_argument("--rate", type=float, default=2.5e-3)
    arguments.add_argument("--last-rate", type=float, default=0.0, help="where the cosine ends")
    arguments.add_argument("--least", type=float, default=0, help="give up after a minute below this many patches/s")
    arguments.add_argument("--workers", type=int, default=14)
    arguments.add_argument("--seed", type=int, default=1)
    a = arguments.parse_args()
    device = "cuda" if torch.cuda.is_available() else "cpu"
    torch.manual_seed(a.seed)
    torch.backends.cudnn.benchmark = True
    renderers = Renderers(a.workers, batch, SHAPES, a.seed, a.patches, 48)
    net = Network(SCOUT_WIDTHS if a.scout else WIDTHS).to(device, memory_format=torch.channels_last)
    teacher = load_exported(a.teacher).to(device, memory_format=torch.channels_last).requires_grad_(False) if a.teacher else None
    if a.start:
        net.load_state_dict({k: v.float() for k, v in torch.load(a.start, map_location=device).items()})
    average = copy.deepcopy(net)
    decay = [p for p in net.parameters() if p.dim() > 1]
    rest = [p for p in net.parameters() if p.dim() <= 1]
    optimiser = torch.optim.AdamW([{"params": decay, "weight_decay": 0.02}, {"params": rest, "weight_decay": 0.0}], lr=a.rate, **({"fused": True} if device == "cuda" else {}))
    store = Store(a.store // a.patches * a.patches, SHAPES, device)
    while store.count < a.first:  # the clock starts when there is something to learn from
        store.add(renderers, renderers.ready(wait=True))
    begin, step, seen, saved = time.time(), 0, 0, time.time()
    kept = [t for t in average.state_dict().values() if t.is_floating_point()]
    live = [t for t in net.state_dict().values() if t.is_floating_point()]
    sums = torch.zeros(6, device=device)
    os.makedirs(a.out, exist_ok=True)
    log = open(os.path.join(a.out, "log.txt"), "a")

    def save():
        if not all(bool(torch.isfinite(t).all()) for t in kept):
            return print("weights that are no numbers: not saved", flush=True)
        torch.save({k: v.float().cpu() for k, v in average.state_dict().items()}, os.path.join(a.out, "weights.pt"))

    while True:
        done = (time.time() - begin) / a.seconds
        if done >= 1:
            break
        rate = a.last_rate + (a.rate - a.last_rate) * (0.5 + 0.5 * math.cos(math.pi * done))
        rate = rate * min(1.0, (step + 1) / 100) + 1e-6
        for group in optimiser.param_groups:
            group["lr"] = rate
        for _ in range(a.groups):
            fresh = renderers.ready(wait=False)
            if fresh is None:
                break
            store.add(renderers, fresh)
        x, target, mask, family, way = drawn(store, a.batch, a.crop)
        with torch.autocast(device, dtype=torch.bfloat16, enabled=device == "cuda"):
            x = x[:, None].contiguous(memory_format=torch.channels_last)
            fields, kinds = net(x)
            lessons = taught(fields, kinds, teacher, x) if teacher else ()
        parts = losses(fields, kinds, target, mask, family, way)
        loss = parts[0] + 0.3 * parts[1] + 0.2 * parts[2] + 0.06 * parts[3]
        for weight, lesson in zip((2.0, 0.6, 0.1), lessons):
            loss = loss + weight * lesson
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        finite_gradients(net, torch.nn.utils.clip_grad_norm_(net.parameters(), 1.0))
        optimiser.step()
        step, seen = step + 1, seen + len(x)
        with torch.no_grad():
            share = max(0.001, 1 / (step + 1))
            torch._foreach_mul_(kept, 1 - share)
            torch._foreach_add_(kept, live, alpha=share)
            sums[:5] += torch.stack([p.detach().float() for p in parts])
            if lessons:
                sums[5] += lessons[0].detach()
        if step % 250 == 0:
            mean = (sums / 250).tolist()
            sums.zero_()
            line = "%6.1f s  step %d  rendered %d  phase %.4f  mask %.4f  family %.3f  way %.3f  right %.3f  from teacher %.4f" % (time.time() - begin, step, store.seen, *mean)
            print(line, flush=True)
            log.write(line + "\n")
            log.flush()
        if 50 < time.time() - begin < 60 and store.seen / (time.time() - begin) < a.least:
            print("too slow:", store.seen / (time.time() - begin), "patches/s")
            break
        if time.time() - saved > 30:
            save()
            saved = time.time()
    save()
    for process in renderers.processes:
        process.terminate()
    print("steps", step, "patches", seen, "seconds", time.time() - begin)


if __name__ == "__main__":
    main()
