#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "core/geometry.h"
#include "image/pyramid.h"
#include "scale/comb_search.h"
#include "scale/robust_fit.h"

namespace ridgetally {

/// A place in a strip frame, photo pixels along and across the row.
struct StripPoint {
    double u = 0.0;
    double w = 0.0;
};

/// Coordinates along a row of marks: u runs along a chord of the row, w across it along the marks, both in
/// photo pixels. photo = origin + u t + base(u) n + w (n + slant(u) t), with unit vectors t and n.
struct StripFrame {
    PhotoPoint origin;
    double tx = 1.0;
    double ty = 0.0;
    Polynomial base;        ///< where the row runs beside the chord
    Polynomial slant;       ///< of the marks against the chord's normal
    Polynomial root_pitch;  ///< square root of the marks' spacing, which is linear in u under perspective
    double u_begin = 0.0;   ///< the part to look at
    double u_end = 0.0;

    [[nodiscard]] PhotoPoint photo(double u, double w) const;
    [[nodiscard]] StripPoint strip_point(const PhotoPoint& p) const;  ///< inverse of photo
    [[nodiscard]] double pitch(double u) const;
};

/// Frame along a chain of comb cells.
[[nodiscard]] StripFrame frame_of(const CombChain& chain);

/// Part of [from, to] around u = 0 whose base line lies inside a picture of this size.
void clip_to_picture(StripFrame& frame, cv::Size picture);

/// Where the columns of a strip lie in the photo: (x, y) at w = 0, and the way along them. Some more than the
/// strip has, so that they come in whole groups of four.
struct StripColumns {
    std::vector<float> x;
    std::vector<float> y;
    std::vector<float> dx;
    std::vector<float> dy;
};

/// The photo resampled in a strip frame, marks upright.
struct Strip {
    cv::Mat grey;  ///< CV_32FC1; column i is u = u_begin + i * step, row j is w = w_begin + j * step
    StripColumns columns;
    cv::Size photo_px;
    double u_begin = 0.0;
    double w_begin = 0.0;
    double step = 1.0;  ///< photo pixels per sample, both ways

    [[nodiscard]] double column(double u) const { return (u - u_begin) / step; }
    [[nodiscard]] double u(double column) const { return u_begin + column * step; }
    [[nodiscard]] double row(double w) const { return (w - w_begin) / step; }
    [[nodiscard]] double w(double row) const { return w_begin + row * step; }
    /// Whether a sample lies in the photo.
    [[nodiscard]] bool inside(int column, int row) const;
};

/// Samples rows w_from to w_to of the frame. The step is chosen so that a mark spacing has 5 to 12
/// samples, or up to 20 where fewer would skip pixels.
[[nodiscard]] Strip sample_strip(const GreyPyramid& pyramid, const StripFrame& frame, double w_from,
                                 double w_to);

}  // namespace ridgetally
