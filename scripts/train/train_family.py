"""Train the network that names the stitch on endless random renders.

    python3 train_family.py --out FOLDER --seconds 540 [--start checkpoint.pt] [--seed 1]

Writes FOLDER/family.pt (moving average of the weights) every half minute and at the end, and FOLDER/family-log.txt.
"""
import torch
import torch.nn.functional as F

from family_network import FamilyNetwork
from family_patches import SHAPES, SIDE, batch
from learning import cropped, device_for, learn, parser_of, placed
from network import FAMILIES

WAY_WEIGHT = 0.3  # of the way of working in the loss; not swept
CROP = 160
SMOOTH = 0.06  # of the label, so that no face is said to be certain; not swept


def mean_logits(kinds, mask):
    """Logits (n, c, s, s) averaged over the fabric of the mask (n, 1, 8 s, 8 s)."""
    weight = F.avg_pool2d(mask, mask.shape[-1] // kinds.shape[-1])
    return (kinds * weight).sum((2, 3)) / weight.sum((2, 3)).clamp_min(1.0)


def losses(kinds, mask, family, way):
    """Cross entropies of family and way of working, and the part of right families."""
    mean = mean_logits(kinds.float(), mask)
    n = len(FAMILIES)
    seen = mask.mean((1, 2, 3)) > 0.1
    family, way = torch.where(seen, family, -1), torch.where(seen, way, -1)
    of_family = F.cross_entropy(mean[:, :n], family, ignore_index=-1, label_smoothing=SMOOTH)
    of_way = F.cross_entropy(mean[:, n:], way, ignore_index=-1, reduction="sum") / (way >= 0).sum().clamp_min(1)
    right = ((mean[:, :n].argmax(1) == family) & seen).sum() / seen.sum().clamp_min(1)
    return of_family, of_way, right


def main():
    parser = parser_of(__doc__, groups=4, batch=512, store=300000, first=8000, rate=3e-3, workers=24, seed=101)
    a = parser.parse_args()
    device = device_for(a.seed)
    net = placed(FamilyNetwork(), device, a.start)

    def lesson(store):
        x, mask, family, way = store.draw(a.batch)
        x, _, (mask,) = cropped(a.batch, SIDE, CROP, x, mask)
        with torch.autocast(device, dtype=torch.bfloat16, enabled=device == "cuda"):
            kinds = net(x[:, None].contiguous(memory_format=torch.channels_last))
        parts = losses(kinds, mask, family, way)
        return parts[0] + WAY_WEIGHT * parts[1], parts

    learn(a, net, device, lesson, ["family", "way", "right"], "family.pt", "family-log.txt", batch, SHAPES, depth=64,
          beside=12, warm_up=200)


if __name__ == "__main__":
    main()
