"""What the training framework computes on the tile of the golden tests (tests/unit/recogniser/golden_test.cpp).

    python3 golden.py checkpoint.pt|plain.onnx

The weights are rounded as in the file (eight_bits.py), from a checkpoint or from an export that was not rounded yet; the
convolutions are PyTorch's. Prints fields at three samples and the kinds at row 3, column 4.
"""
import sys

import torch

from eight_bits import rounded
from export import fold
from restart import load, sized_for


def formula_tile(side=64):
    """As formula_tile() of tests/unit/recogniser/drawn_tile.cpp."""
    y, x = torch.meshgrid(torch.arange(side, dtype=torch.float64), torch.arange(side, dtype=torch.float64), indexing="ij")
    return torch.sin(0.37 * x) + torch.cos(0.23 * y) * torch.sin(0.11 * x + 0.05 * y)


def chevron_tile(side=64):
    """As chevron_tile() there."""
    y, x = torch.meshgrid(torch.arange(side, dtype=torch.float64), torch.arange(side, dtype=torch.float64), indexing="ij")
    u = x / 16 - torch.floor(x / 16)
    return 1.2 * torch.cos(2 * torch.pi * (y / 12 + 0.7 * (u - 0.5).abs())) - torch.cos(4 * torch.pi * u)


def network(path):
    if path.endswith(".onnx"):
        return rounded(fold(load(path)))
    state = torch.load(path, map_location="cpu")
    net = sized_for(state)
    net.load_state_dict({k: v.float() for k, v in state.items()})
    return rounded(fold(net.eval()))


def main(path):
    net = network(path)
    for name, tile in (("formula", formula_tile()), ("chevron", chevron_tile())):
        with torch.no_grad():
            fields, kinds = net(tile.float()[None, None])
        for x, y in ((7, 5), (16, 16), (29, 20)):
            print(name, (x, y), ["%.5f" % v for v in fields[0, :, y, x]])
        print(name, "kinds", ["%.4f" % v for v in kinds[0, :, 3, 4]])


if __name__ == "__main__":
    main(sys.argv[1])
