"""Make a checkpoint that can be trained further out of exported weights.

    python3 restart.py phase-fields.onnx checkpoint.pt [patches]

Export folds every batch normalisation into its convolution. Here it is taken apart again: the statistics come from
patches drawn with a fixed seed, scale and offset are set so that the network computes what the file does, and filters
get length 1, about what training gives them (the normalisation makes any length equivalent).
"""
import sys

import onnx
import torch
from onnx import numpy_helper

from fabric import Draw
from network import SCOUT_WIDTHS, WIDTHS, Network
from patches import batch

SEED = 770001


def pairs(net):
    """Convolutions with the batch normalisation behind them, in the order in which they run."""
    for module in net.modules():
        if isinstance(module, torch.nn.Sequential):
            children = list(module)
            for a, b in zip(children, children[1:]):
                if isinstance(b, torch.nn.BatchNorm2d):
                    yield a, b


def unfold(net, pictures):
    """Sets the normalisations from what the convolutions give on the pictures (n, 1, size, size)."""
    sums = {a: [] for a, _ in pairs(net)}

    def note(convolution, _, out):
        sums[convolution].append(torch.stack([out.mean((0, 2, 3)), (out ** 2).mean((0, 2, 3))]))

    hooks = [a.register_forward_hook(note) for a in sums]
    for part in pictures.split(16):
        net(part)
    for hook in hooks:
        hook.remove()
    for convolution, normalisation in pairs(net):
        mean, square = torch.stack(sums[convolution]).mean(0)
        variance = (square - mean ** 2).clamp_min(1e-8)
        length = convolution.weight.flatten(1).norm(dim=1).clamp_min(1e-8)
        offset = normalisation.bias.clone()  # where load() left the folded one; all else was neutral
        convolution.weight /= length.view(-1, 1, 1, 1)
        normalisation.running_mean.copy_(mean / length)
        normalisation.running_var.copy_(variance / length ** 2)
        normalisation.weight.copy_(torch.sqrt(variance / length ** 2 + normalisation.eps) * length)
        normalisation.bias.copy_(offset + mean)


def values(path):
    """Names and values of an exported file, weights of 8 bits at their scale."""
    whole = {t.name: torch.tensor(numpy_helper.to_array(t)) for t in onnx.load(path).graph.initializer}
    out = {}
    for name, value in whole.items():
        if name + ".scale" in whole:
            out[name] = value.float() * whole[name + ".scale"].view(-1, 1, 1, 1)
        elif not name.endswith((".scale", ".zero", ".one")):
            out[name] = value
    return out


def sized_for(state):
    """An untrained network of the widths of these weights."""
    return Network(SCOUT_WIDTHS if len(state["stem.0.0.weight"]) == SCOUT_WIDTHS[0] else WIDTHS)


def load(path):
    """The network with folded weights: normalisations that add the folded offsets and nothing else."""
    folded = values(path)
    net = sized_for(folded).eval()
    state = net.state_dict()
    names = {m: n for n, m in net.named_modules()}
    normalised = {names[a]: names[b] for a, b in pairs(net)}
    for name, value in folded.items():
        owner, kind = name.rsplit(".", 1)
        if kind == "bias" and owner in normalised:
            state[normalised[owner] + ".bias"] = value
            state[normalised[owner] + ".running_var"] = torch.ones_like(value) - net.get_submodule(normalised[owner]).eps
        else:
            state[name] = value
    net.load_state_dict(state)
    return net


def main(source, out, count):
    torch.set_num_threads(1)
    with torch.no_grad():
        net = load(source)
        draw = Draw("cpu", SEED)
        pictures = torch.cat([batch(draw, 8)[0][:, None] for _ in range(count // 8)])
        before = net(pictures[:8])[0]
        unfold(net, pictures)
        print("difference", float((net(pictures[:8])[0] - before).abs().max()))
    torch.save(net.state_dict(), out)


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 256)
