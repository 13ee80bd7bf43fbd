"""Write a checkpoint of the stitch network as ONNX and print its SHA-256.

    python3 export_family.py family.pt stitch-families.onnx [tile]

Weights are kept in 8 bits with one scale a filter: the convolution works with whole numbers, the batch normalisation
behind it, which the engine folds into the convolution when it loads the file, sets the scale right.
"""
import sys

import torch

from eight_bits import write
from export import fold
from family_network import FamilyNetwork


def loaded(checkpoint):
    net = FamilyNetwork()
    net.load_state_dict(torch.load(checkpoint, map_location="cpu"))
    return fold(net.eval())


def main(checkpoint, out, tile=224):
    torch.onnx.export(loaded(checkpoint), torch.zeros(1, 1, tile, tile), out, opset_version=11,
                      input_names=["picture"], output_names=["kinds"])
    write(out, out)


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 224)
