"""The recogniser's network: a small encoder-decoder with plain operations only.

Input  (N, 1, S, S): locally normalised grey picture, S a multiple of 16.
Output `fields` (N, 5, S/2, S/2): cos and sin of 2 pi x stitch coordinate, cos and sin of
2 pi x row coordinate, and the logit of the fabric mask.
Output `kinds` (N, 11, S/8, S/8): nine logits of the stitch family, then two of the way of working
(flat, round); they are averaged over the fabric before the softmax.
"""
import torch
from torch import nn

FAMILIES = ["sc", "sc-blo", "sc-flo", "hdc", "hdc-blo", "dc", "tr", "stockinette", "other"]
WORKED = ["flat", "round"]
WIDTHS = (16, 32, 64, 96, 144)       # of the network that has the last word
SCOUT_WIDTHS = (12, 24, 32, 48, 80)  # of the one that searches: about 0.3 of the multiplications


def conv(cin, cout, kernel=3, stride=1):
    """Convolution without bias, batch normalisation (folded on export), rectifier."""
    return nn.Sequential(
        nn.Conv2d(cin, cout, kernel, stride, kernel // 2, bias=False),
        nn.BatchNorm2d(cout), nn.ReLU(inplace=True))


class Residual(nn.Module):
    def __init__(self, width):
        super().__init__()
        self.first = conv(width, width)
        self.second = nn.Sequential(
            nn.Conv2d(width, width, 3, 1, 1, bias=False), nn.BatchNorm2d(width))

    def forward(self, x):
        return torch.relu(x + self.second(self.first(x)))


class Network(nn.Module):
    def __init__(self, widths=WIDTHS):
        super().__init__()
        w1, w2, w3, w4, w5 = widths
        self.stem = nn.Sequential(conv(1, w1, 5, 2), conv(w1, w2))           # 1/2
        self.quarter = nn.Sequential(conv(w2, w3, 3, 2), Residual(w3), Residual(w3))  # 1/4
        self.eighth = nn.Sequential(conv(w3, w4, 3, 2), Residual(w4), Residual(w4))
        self.sixteenth = nn.Sequential(conv(w4, w5, 3, 2), Residual(w5), Residual(w5))
        self.up8 = nn.ConvTranspose2d(w5, w4, 2, 2)
        self.join8 = nn.Sequential(conv(2 * w4, w4, 1), Residual(w4))
        self.up4 = nn.ConvTranspose2d(w4, w3, 2, 2)
        self.join4 = nn.Sequential(conv(2 * w3, w3, 1), Residual(w3))
        self.fields = nn.ConvTranspose2d(w3, 5, 2, 2)
        self.kinds = nn.Conv2d(w4, len(FAMILIES) + len(WORKED), 1)

    def forward(self, x):
        x4 = self.quarter(self.stem(x))
        x8 = self.eighth(x4)
        y8 = self.join8(torch.cat([self.up8(self.sixteenth(x8)), x8], 1))
        y4 = self.join4(torch.cat([self.up4(y8), x4], 1))
        return self.fields(y4), self.kinds(y8)
