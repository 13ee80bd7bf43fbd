"""The network that names the stitch once the lattice is known: plain convolutions and residuals, no decoder.

Input  (N, 1, S, S): locally normalised grey picture, rows level, PITCH pixels (family_patches.py) a stitch.
Output (N, 11, S/16, S/16): nine logits of the stitch family, then two of the way of working (flat, round); they are
averaged over the fabric before the softmax.
"""
from torch import nn

from network import FAMILIES, WORKED, Residual, conv


class FamilyNetwork(nn.Module):
    def __init__(self, widths=(24, 40, 64, 112)):
        super().__init__()
        w1, w2, w3, w4 = widths
        self.body = nn.Sequential(
            conv(1, w1, 5, 2), conv(w1, w2, 3, 2), Residual(w2),        # 1/4
            conv(w2, w3, 3, 2), Residual(w3), Residual(w3),             # 1/8
            conv(w3, w4, 3, 2), Residual(w4), Residual(w4))             # 1/16
        self.kinds = nn.Conv2d(w4, len(FAMILIES) + len(WORKED), 1)

    def forward(self, x):
        return self.kinds(self.body(x))
