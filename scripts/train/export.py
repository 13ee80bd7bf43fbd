"""Write a checkpoint of either network of the phase fields as ONNX and print its SHA-256.

    python3 export.py checkpoint.pt recogniser.onnx [tile]

Batch of one, batch normalisation folded, weights of 8 bits (eight_bits.py).
"""
import sys

import torch

from eight_bits import write
from restart import sized_for


def fold(net):
    """Fold every batch normalisation into the convolution before it."""
    from torch.nn.utils.fusion import fuse_conv_bn_eval
    for module in net.modules():
        if isinstance(module, torch.nn.Sequential):
            names = list(module._modules)
            for a, b in zip(names, names[1:]):
                if isinstance(module._modules[b], torch.nn.BatchNorm2d):
                    module._modules[a] = fuse_conv_bn_eval(module._modules[a], module._modules[b])
                    module._modules[b] = torch.nn.Identity()
    return net


def main(checkpoint, out, tile=192):
    state = torch.load(checkpoint, map_location="cpu")
    net = sized_for(state)
    net.load_state_dict({k: v.float() for k, v in state.items()})
    net = fold(net.eval())
    torch.onnx.export(net, torch.zeros(1, 1, tile, tile), out, opset_version=11,
                      input_names=["picture"], output_names=["fields", "kinds"])
    write(out, out)


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 192)
