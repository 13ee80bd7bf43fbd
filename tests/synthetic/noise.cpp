#include "synthetic/noise.h"

#include "core/random.h"

namespace ridgetally::synthetic {

cv::Mat1f noise_tile(int side, int cells_x, int cells_y, std::uint64_t seed) {
    Random random(seed);
    cv::Mat1f lattice(cells_y, cells_x);
    for (float& v : lattice) v = static_cast<float>(random.uniform(-1.0, 1.0));
    const auto ease = [](float t) { return t * t * (3.0F - 2.0F * t); };
    cv::Mat1f out(side, side);
    for (int y = 0; y < side; ++y) {
        const float fy = static_cast<float>(y) * static_cast<float>(cells_y) / static_cast<float>(side);
        const int y0 = static_cast<int>(fy), y1 = (y0 + 1) % cells_y;
        const float ty = ease(fy - static_cast<float>(y0));
        for (int x = 0; x < side; ++x) {
            const float fx = static_cast<float>(x) * static_cast<float>(cells_x) / static_cast<float>(side);
            const int x0 = static_cast<int>(fx), x1 = (x0 + 1) % cells_x;
            const float tx = ease(fx - static_cast<float>(x0));
            const float top = lattice(y0, x0) + tx * (lattice(y0, x1) - lattice(y0, x0));
            const float bottom = lattice(y1, x0) + tx * (lattice(y1, x1) - lattice(y1, x0));
            out(y, x) = top + ty * (bottom - top);
        }
    }
    return out;
}

cv::Mat1f fractal_tile(int side, int cells_x, int cells_y, int octaves, std::uint64_t seed) {
    cv::Mat1f sum = cv::Mat1f::zeros(side, side);
    float strength = 0.5F;
    for (int i = 0; i < octaves; ++i, strength /= 2.0F, cells_x *= 2, cells_y *= 2)
        sum += strength * noise_tile(side, std::min(cells_x, side), std::min(cells_y, side),
                                     seed + 77 * static_cast<std::uint64_t>(i));
    return sum;
}

}  // namespace ridgetally::synthetic
