#pragma once

#include <opencv2/core.hpp>

#include "core/geometry.h"

namespace ridgetally {

enum class Interpolation { bilinear, bicubic };

struct ResampleOptions {
    /// Bicubic keeps thin marks sharper when enlarging; bilinear never overshoots.
    Interpolation interpolation = Interpolation::bilinear;
    /// Value where the target shows nothing of the source.
    cv::Scalar outside = cv::Scalar::all(0);
};

/// The picture of `source` in another frame: target pixel p shows source_from_target(p); integer coordinates
/// are centres of pixels in both. Where the target is coarser than the source by a factor of 2 or more, the
/// source is first averaged over whole blocks (the smallest factor over the target decides), so that fine
/// texture does not alias. Positions are rounded to 1/32 px, as cv::warpPerspective does.
/// Throws std::invalid_argument for an empty source or size.
[[nodiscard]] cv::Mat resample(const cv::Mat& source, const Matrix3& source_from_target,
                               const cv::Size& target_size, const ResampleOptions& options = {});

template <typename Source, typename Target>
[[nodiscard]] cv::Mat resample(const cv::Mat& source, const Projective<Source, Target>& source_from_target,
                               const cv::Size& target_size, const ResampleOptions& options = {}) {
    return resample(source, source_from_target.matrix, target_size, options);
}

/// The picture averaged over blocks of factor x factor pixels; what is left over at the right and the bottom
/// is dropped. Pixel (i, j) of the result is centred on factor * i + (factor - 1) / 2 of the source.
/// Throws std::invalid_argument where no whole block fits or factor < 1.
[[nodiscard]] cv::Mat shrunk(const cv::Mat& source, int factor);

}  // namespace ridgetally
