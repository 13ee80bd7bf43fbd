"""Depth-buffer splatting of spheres: one source, built for the GPU (CuPy) or for one CPU core (cc).

`splat(xy z r, patch, batch, size)` returns, for each pixel, the index of the point whose sphere is
nearest to the camera (-1 where none) and its depth.
"""
import ctypes
import os
import subprocess
import tempfile

import torch

BODY = r"""
    float cx = p[4 * k], cy = p[4 * k + 1], cz = p[4 * k + 2], r = p[4 * k + 3];
    if (!(r > 0.f) || cx + r < 0.f || cy + r < 0.f || cx - r > size || cy - r > size) SKIP;
    int x0 = (int)ceilf(cx - r - 0.5f), x1 = (int)floorf(cx + r - 0.5f);
    int y0 = (int)ceilf(cy - r - 0.5f), y1 = (int)floorf(cy + r - 0.5f);
    if (x0 < 0) x0 = 0; if (y0 < 0) y0 = 0;
    if (x1 >= size) x1 = size - 1; if (y1 >= size) y1 = size - 1;
    long long base = (long long)patch[k] * size * size;
    for (int y = y0; y <= y1; ++y) for (int x = x0; x <= x1; ++x) {
        float dx = x + 0.5f - cx, dy = y + 0.5f - cy, d = r * r - dx * dx - dy * dy;
        if (d < 0.f) continue;
        float z = cz + sqrtf(d) + 4096.f;
        unsigned int q = (unsigned int)(z * 262144.f);
        unsigned long long key = ((unsigned long long)q << 32) | (unsigned int)(k + 1);
        STORE;
    }
"""

CPU = """
#include <math.h>
void splat(const float* p, const int* patch, unsigned long long* buffer, int n, int size) {
  for (int k = 0; k < n; ++k) {""" + BODY.replace("SKIP", "continue").replace(
    "STORE", "unsigned long long* b = buffer + base + y * size + x; if (key > *b) *b = key") + "}}"

GPU = """
extern "C" __global__ void splat(const float* p, const int* patch, unsigned long long* buffer,
                                 int n, int size) {
  int k = blockIdx.x * blockDim.x + threadIdx.x;
  if (k >= n) return;
""" + BODY.replace("SKIP", "return").replace("STORE", "atomicMax(buffer + base + y * size + x, key)") + "}"

_built = {}


def _cpu():
    if "cpu" not in _built:
        folder = tempfile.mkdtemp()
        source, library = os.path.join(folder, "splat.c"), os.path.join(folder, "splat.so")
        with open(source, "w") as f:
            f.write(CPU)
        subprocess.check_call(["cc", "-O3", "-ffast-math", "-shared", "-fPIC", source, "-o", library, "-lm"])
        _built["cpu"] = ctypes.CDLL(library).splat
    return _built["cpu"]


def _gpu():
    if "gpu" not in _built:
        import cupy
        _built["gpu"] = cupy.RawKernel(GPU, "splat", options=("--use_fast_math",))
    return _built["gpu"]


def splat(points, patch, batch, size):
    """points (n, 4) x, y, z, radius in pixels; patch (n,) int32."""
    n = points.shape[0]
    buffer = torch.zeros(batch, size, size, dtype=torch.int64, device=points.device)
    points, patch = points.float().contiguous(), patch.int().contiguous()
    if points.is_cuda:
        import cupy
        stream = cupy.cuda.ExternalStream(torch.cuda.current_stream().cuda_stream)
        with stream:
            _gpu()(((n + 127) // 128,), (128,),
                   (points.data_ptr(), patch.data_ptr(), buffer.data_ptr(), _i32(n), _i32(size)))
    else:
        _cpu()(ctypes.c_void_p(points.data_ptr()), ctypes.c_void_p(patch.data_ptr()),
               ctypes.c_void_p(buffer.data_ptr()), n, size)
    index = (buffer & 0xFFFFFFFF) - 1
    depth = (buffer >> 32).float() / 262144.0 - 4096.0
    return index, depth


def _i32(value):
    import numpy
    return numpy.int32(value)
