"""The training loop that both networks share: cosine rate, moving average of the weights, log and checkpoints."""
import argparse
import copy
import math
import os
import time

import torch

from rendering import Renderers, Store, finite_gradients

LINE_STEPS = 250  # steps that one line of the log is the mean of
SAVE_SECONDS = 30.0
LONGEST_MEMORY = 0.001  # share of the newest weights in their moving average
WEIGHT_DECAY = 0.02  # of filters; not of biases and norms


def parser_of(description, **defaults):
    """The options that both training scripts have. `defaults`: groups, batch, store, first, rate, workers, seed."""
    parser = argparse.ArgumentParser(description=description, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--out", required=True)
    parser.add_argument("--seconds", type=float, default=540)
    parser.add_argument("--start", help="checkpoint to go on from")
    parser.add_argument("--groups", type=int, help="sub-batches taken in a step at most")
    parser.add_argument("--batch", type=int)
    parser.add_argument("--store", type=int, help="patches kept")
    parser.add_argument("--first", type=int, help="patches to wait for before the first step")
    parser.add_argument("--patches", type=int, default=32, help="in a sub-batch")
    parser.add_argument("--rate", type=float)
    parser.add_argument("--last-rate", type=float, default=0.0, help="where the cosine ends")
    parser.add_argument("--least", type=float, default=0, help="give up after a minute below this many patches/s")
    parser.add_argument("--workers", type=int)
    parser.add_argument("--seed", type=int)
    parser.set_defaults(**defaults)
    return parser


def device_for(seed):
    """The device to train on, seeded."""
    torch.manual_seed(seed)
    torch.backends.cudnn.benchmark = True
    return "cuda" if torch.cuda.is_available() else "cpu"


def placed(net, device, start=None):
    """`net` on the device, with the weights of the checkpoint `start` where there is one."""
    net = net.to(device, memory_format=torch.channels_last)
    if start:
        state = torch.load(start, map_location=device)
        net.load_state_dict({k: v.float() if v.is_floating_point() else v for k, v in state.items()})
    return net


def optimiser_of(net, rate, device):
    decay = [p for p in net.parameters() if p.dim() > 1]
    rest = [p for p in net.parameters() if p.dim() <= 1]
    groups = [{"params": decay, "weight_decay": WEIGHT_DECAY}, {"params": rest, "weight_decay": 0.0}]
    return torch.optim.AdamW(groups, lr=rate, **({"fused": True} if device == "cuda" else {}))


class Average:
    """Moving average of a network's weights."""

    def __init__(self, net):
        self.net = copy.deepcopy(net)
        self.kept = [t for t in self.net.state_dict().values() if t.is_floating_point()]
        self.live = [t for t in net.state_dict().values() if t.is_floating_point()]

    def follow(self, step):
        share = max(LONGEST_MEMORY, 1 / (step + 1))
        torch._foreach_mul_(self.kept, 1 - share)
        torch._foreach_add_(self.kept, self.live, alpha=share)

    def save(self, path):
        if not all(bool(torch.isfinite(t).all()) for t in self.kept):
            return print("weights that are no numbers: not saved", flush=True)
        torch.save({k: v.float().cpu() if v.is_floating_point() else v.cpu() for k, v in self.net.state_dict().items()}, path)


def learn(a, net, device, lesson, columns, weights, log, batch, shapes, depth, beside, warm_up):
    """Trains `net` for a.seconds; `a` holds the options of parser_of.

    lesson(store): loss and a list of detached figures, the means of which the log shows under the names `columns`.
    weights, log: file names in a.out. batch, shapes, depth, beside: of the rendering processes (Renderers).
    warm_up: steps until the rate is reached."""
    renderers = Renderers(a.workers, batch, shapes, a.seed, a.patches, depth, beside)
    average, optimiser = Average(net), optimiser_of(net, a.rate, device)
    store = Store(a.store // a.patches * a.patches, shapes, device)
    while store.count < a.first:  # the clock starts when there is something to learn from
        store.add(renderers, renderers.ready(wait=True))
    os.makedirs(a.out, exist_ok=True)
    begin = saved = time.time()
    step, sums = 0, torch.zeros(len(columns), device=device)
    with open(os.path.join(a.out, log), "a") as lines:
        while (done := (time.time() - begin) / a.seconds) < 1:
            rate = a.last_rate + (a.rate - a.last_rate) * (0.5 + 0.5 * math.cos(math.pi * done))
            for group in optimiser.param_groups:
                group["lr"] = rate * min(1.0, (step + 1) / warm_up) + 1e-6
            for _ in range(a.groups):
                fresh = renderers.ready(wait=False)
                if fresh is None:
                    break
                store.add(renderers, fresh)
            loss, figures = lesson(store)
            optimiser.zero_grad(set_to_none=True)
            loss.backward()
            finite_gradients(net, torch.nn.utils.clip_grad_norm_(net.parameters(), 1.0))
            optimiser.step()
            step += 1
            with torch.no_grad():
                average.follow(step)
                sums += torch.stack([f.detach().float() for f in figures])
            now = time.time() - begin
            if step % LINE_STEPS == 0:
                means = "  ".join("%s %.4f" % pair for pair in zip(columns, (sums / LINE_STEPS).tolist()))
                sums.zero_()
                line = "%6.1f s  step %d  rendered %d  %s" % (now, step, store.seen, means)
                print(line, flush=True)
                lines.write(line + "\n")
                lines.flush()
            if 50 < now < 60 and store.seen / now < a.least:
                print("too slow:", store.seen / now, "patches/s")
                break
            if time.time() - saved > SAVE_SECONDS:
                average.save(os.path.join(a.out, weights))
                saved = time.time()
    average.save(os.path.join(a.out, weights))
    for process in renderers.processes:
        process.terminate()
    print("steps", step, "patches", step * a.batch, "seconds", time.time() - begin)


def cropped(n, side, crop, x, *fields):
    """A random part of `crop` pixels of x (n, side, side) and of `fields` (n, c, side / 2, side / 2), and which of the n to
    mirror; x comes mirrored, with some more noise."""
    dx, dy = (2 * int(v) for v in torch.randint((side - crop) // 2 + 1, (2,)))
    x = x[:, dy:dy + crop, dx:dx + crop].float()
    h, w, c = dy // 2, dx // 2, crop // 2
    fields = [t[:, :, h:h + c, w:w + c].float() for t in fields]
    mirror = torch.rand(n, device=x.device) < 0.5
    x = torch.where(mirror[:, None, None], x.flip(2), x)
    strength = torch.rand(n, 1, 1, device=x.device) ** 2 * 0.3
    flipped = [torch.where(mirror[:, None, None, None], t.flip(3), t) for t in fields]
    return x + strength * torch.randn_like(x), mirror, flipped
