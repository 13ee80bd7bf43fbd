"""Rendering processes and the store of the newest patches, shared by the training scripts."""
import queue

import torch

from fabric import Draw


def work(rank, beside, batch, seed, b, slots, free, full):
    """One rendering process: fills slots of shared memory with batch(draw, b) for ever."""
    cards = torch.cuda.device_count()
    device = "cuda:%d" % (0 if cards < 2 or rank % beside == 0 else 1) if cards else "cpu"
    torch.set_num_threads(1)
    if cards:
        torch.cuda.set_device(device)
    draw = Draw(device, 1000 * seed + rank)
    with torch.no_grad():
        while True:
            made = batch(draw, b)
            if not all(bool(torch.isfinite(t).all()) for t in made):
                print("patches that are no numbers, left out:", made[-2][0].item(), flush=True)
                continue  # one such patch would spoil every weight
            slot = free.get()
            for place, tensor in zip(slots, made):
                place[slot].copy_(tensor)
            full.put(slot)


def finite_gradients(net, norm):
    """Sets the gradients to zero where their norm is not a number, so that a bad step changes little."""
    sound = torch.isfinite(norm)
    for p in net.parameters():
        if p.grad is not None:
            p.grad = torch.where(sound, p.grad, torch.zeros_like(p.grad))


class Renderers:
    """Rendering processes and the sub-batches they have ready: `shapes` lists (shape, type) of the tensors that
    batch(draw, b) returns, without the b. With two cards the second one renders, the first one trains and takes one
    renderer in `beside`; processes share a card in turns, so each of them costs the training its part."""

    def __init__(self, count, batch, shapes, seed, b, depth, beside=4):
        context = torch.multiprocessing.get_context("spawn")
        self.slots = [torch.zeros(depth, b, *s, dtype=t).share_memory_() for s, t in shapes]
        self.free, self.full = context.Queue(), context.Queue()
        for n in range(depth):
            self.free.put(n)
        self.processes = [context.Process(target=work, args=(n, beside, batch, seed, b, self.slots, self.free, self.full), daemon=True)
                          for n in range(count)]
        for p in self.processes:
            p.start()

    def ready(self, wait):
        """Slot of a rendered sub-batch, or None when none is ready and `wait` is false."""
        try:
            return self.full.get(block=wait)
        except queue.Empty:
            return None


class Store:
    """The newest patches, on the training device; each is used several times."""

    def __init__(self, capacity, shapes, device):
        self.parts = [torch.zeros(capacity, *s, dtype=t, device=device) for s, t in shapes]
        self.capacity, self.count, self.seen = capacity, 0, 0

    def add(self, renderers, slot):
        sub_batch = [t[slot] for t in renderers.slots]
        n = len(sub_batch[0])
        at = self.seen % self.capacity
        for part, new in zip(self.parts, sub_batch):
            part[at:at + n].copy_(new)
        renderers.free.put(slot)
        self.seen += n
        self.count = min(self.capacity, self.seen)

    def draw(self, n):
        """n random patches."""
        index = torch.randint(self.count, (n,), device=self.parts[0].device)
        return [p[index] for p in self.parts]
