"""Write a checkpoint as ONNX (float32, batch of one, batch normalisation folded) and print its SHA-256.

    python3 export.py checkpoint.pt recogniser.onnx [tile]
"""
import hashlib
import sys

import torch

from network import Network


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
    net = Network()
    state = torch.load(checkpoint, map_location="cpu")
    net.load_state_dict({k: v.float() for k, v in state.items()})
    net = fold(net.eval())
    torch.onnx.export(net, torch.zeros(1, 1, tile, tile), out, opset_version=11,
                      input_names=["picture"], output_names=["fields", "kinds"])
    print(hashlib.sha256(open(out, "rb").read()).hexdigest())


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 192)
