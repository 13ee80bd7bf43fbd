"""Train the recogniser on endless random renders.

    python3 train.py --out FOLDER --seconds 540 [--start checkpoint.pt] [--batch 320] [--seed 1]

With --scout the small network is trained; with --teacher phase-fields.onnx it learns what that network says besides the
truth.

Writes FOLDER/weights.pt (moving average of the weights) every minute and at the end, and FOLDER/log.txt.
"""
import torch
import torch.nn.functional as F

from learning import cropped, device_for, learn, parser_of, placed
from network import FAMILIES, SCOUT_WIDTHS, WIDTHS, Network
from patches import SIZE, batch
from restart import load as load_exported

HALF = SIZE // 2
SHAPES = [((SIZE, SIZE), torch.float16), ((4, HALF, HALF), torch.float16), ((1, HALF, HALF), torch.uint8),
          ((), torch.int64), ((), torch.int64)]


def losses(fields, kinds, target, mask, family, way):
    """Mean squared error of the phase fields, cross entropies of mask, family and way of working."""
    fields, kinds = fields.float(), kinds.float()
    phase = ((fields[:, :4] - target) ** 2).sum(1).mean()
    cover = F.binary_cross_entropy_with_logits(fields[:, 4:], mask)
    weight = F.avg_pool2d(mask, 4)
    mean = (kinds * weight).sum((2, 3)) / weight.sum((2, 3)).clamp_min(1.0)
    n = len(FAMILIES)
    family_loss = F.cross_entropy(mean[:, :n], family, ignore_index=-1, reduction="sum") / (family >= 0).sum().clamp_min(1)
    way_loss = F.cross_entropy(mean[:, n:], way, ignore_index=-1, reduction="sum") / (way >= 0).sum().clamp_min(1)
    right = ((mean[:, :n].argmax(1) == family) & (family >= 0)).sum() / (family >= 0).sum().clamp_min(1)
    return phase, cover, family_loss, way_loss, right


def taught(fields, kinds, teacher, x):
    """How far the outputs are from the teacher's: fields (phases and mask) and kinds."""
    with torch.no_grad():
        said, named = (t.float() for t in teacher(x))
    fields, kinds = fields.float(), kinds.float()
    phase = ((fields[:, :4] - said[:, :4]) ** 2).sum(1).mean()
    cover = F.binary_cross_entropy_with_logits(fields[:, 4:], torch.sigmoid(said[:, 4:]))
    return phase, cover, ((kinds - named) ** 2).mean()


def drawn(store, n, crop):
    """n random patches, cropped to `crop` pixels, mirrored left to right and with some more noise."""
    x, fields, mask, family, way = store.draw(n)
    x, mirror, (fields, mask) = cropped(n, SIZE, crop, x, fields, mask)
    # Stitches are counted rightwards: mirrored, their sine changes its sign.
    sign = torch.tensor([1.0, -1.0, 1.0, 1.0], device=x.device)[None, :, None, None]
    return x, torch.where(mirror[:, None, None, None], fields * sign, fields), mask, family, way


def main():
    parser = parser_of(__doc__, groups=2, batch=320, store=160000, first=4000, rate=2.5e-3, workers=14, seed=1)
    parser.add_argument("--scout", action="store_true")
    parser.add_argument("--teacher", help="exported weights of the large network")
    parser.add_argument("--crop", type=int, default=160)
    a = parser.parse_args()
    device = device_for(a.seed)
    net = placed(Network(SCOUT_WIDTHS if a.scout else WIDTHS), device, a.start)
    teacher = placed(load_exported(a.teacher), device).requires_grad_(False) if a.teacher else None
    columns = ["phase", "mask", "family", "way", "right"] + (["from teacher"] if teacher else [])

    def lesson(store):
        x, target, mask, family, way = drawn(store, a.batch, a.crop)
        with torch.autocast(device, dtype=torch.bfloat16, enabled=device == "cuda"):
            x = x[:, None].contiguous(memory_format=torch.channels_last)
            fields, kinds = net(x)
            said = taught(fields, kinds, teacher, x) if teacher else ()
        parts = losses(fields, kinds, target, mask, family, way)
        loss = parts[0] + 0.3 * parts[1] + 0.2 * parts[2] + 0.06 * parts[3]
        for weight, part in zip((2.0, 0.6, 0.1), said):
            loss = loss + weight * part
        return loss, [*parts, *said[:1]]

    learn(a, net, device, lesson, columns, "weights.pt", "log.txt", batch, SHAPES, depth=48, beside=4, warm_up=100)


if __name__ == "__main__":
    main()
