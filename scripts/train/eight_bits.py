"""Convolution weights of an exported network in 8 bits.

    python3 eight_bits.py plain.onnx small.onnx

One scale a filter: the convolution works with whole numbers, the batch normalisation behind it, which the engine folds
into the convolution when it loads the file, sets the scale right. Prints the SHA-256 of the file.
"""
import hashlib
import sys

import onnx
import torch
from onnx import TensorProto, helper, numpy_helper


def scale_of(weight):
    return (weight.abs().flatten(1).max(1).values / 127).clamp_min(1e-12)


def rounded(net):
    """The folded network with its weights rounded as in the file; what the ONNX run is compared with."""
    for module in net.modules():
        if isinstance(module, torch.nn.Conv2d):
            scale = scale_of(module.weight.data).view(-1, 1, 1, 1)
            module.weight.data = torch.round(module.weight.data / scale) * scale
    return net


def eight_bits(model):
    """Every convolution's weights as INT8, then Cast, Conv, BatchNormalization with the scale and the offset."""
    values = {t.name: torch.tensor(numpy_helper.to_array(t)) for t in model.graph.initializer}
    nodes, kept = [], []

    def keep(name, tensor):
        kept.append(numpy_helper.from_array(tensor.numpy(), name))
        return name

    for node in model.graph.node:
        if node.op_type != "Conv":
            nodes.append(node)
            continue
        out, (x, w, b) = node.output[0], node.input
        scale = scale_of(values[w])
        whole = torch.round(values[w] / scale.view(-1, 1, 1, 1)).to(torch.int8)
        nodes.append(helper.make_node("Cast", [keep(w, whole)], [w + ".real"], to=TensorProto.FLOAT))
        plain = helper.make_node("Conv", [x, w + ".real"], [out + ".whole"])
        plain.attribute.extend(node.attribute)
        nodes.append(plain)
        zero, one = torch.zeros_like(scale), torch.ones_like(scale)
        parts = [keep(w + ".scale", scale), keep(b, values[b]), keep(w + ".zero", zero), keep(w + ".one", one)]
        nodes.append(helper.make_node("BatchNormalization", [out + ".whole", *parts], [out], epsilon=1e-20))
    used = {name for node in nodes for name in node.input}
    rest = [t for t in model.graph.initializer if t.name in used and t.name not in {k.name for k in kept}]
    del model.graph.node[:], model.graph.initializer[:]
    model.graph.node.extend(nodes)
    model.graph.initializer.extend(kept + rest)


def write(source, out):
    model = onnx.load(source)
    eight_bits(model)
    onnx.checker.check_model(model)
    onnx.save(model, out)
    print(hashlib.sha256(open(out, "rb").read()).hexdigest())


if __name__ == "__main__":
    write(sys.argv[1], sys.argv[2])
