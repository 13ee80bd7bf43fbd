#pragma once

#include <opencv2/core.hpp>

namespace ridgetally::synthetic {

/// A square tile of smooth noise in -1..1 that repeats without a seam. `cells`: features along a side.
[[nodiscard]] cv::Mat1f noise_tile(int side, int cells_x, int cells_y, std::uint64_t seed);

/// Several octaves of noise_tile, each twice as fine and half as strong.
[[nodiscard]] cv::Mat1f fractal_tile(int side, int cells_x, int cells_y, int octaves, std::uint64_t seed);

/// Value of a tile at any place, wrapped, nearest sample.
inline float tile_at(const cv::Mat1f& tile, float x, float y) {
    const int mask = tile.cols - 1;  // the side is a power of two
    return tile(static_cast<int>(std::floor(y)) & mask, static_cast<int>(std::floor(x)) & mask);
}

}  // namespace ridgetally::synthetic
