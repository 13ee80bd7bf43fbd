#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// Which axis of a row-aligned picture a period runs along: stitches along x, rows along y.
enum class Axis { x, y };

/// Complex response of a texture near one spatial frequency, shifted to zero frequency: its argument is the
/// local phase against a comb of exactly `pitch_px` (geometric phase analysis: M. Hytch, E. Snoeck, R.
/// Kilaas, Ultramicroscopy 74, 1998). Kept on a grid `step_px` coarser than the picture, since the window has
/// smoothed it: sample (i, j) stands for pixel ((i + 0.5) step - 0.5, (j + 0.5) step - 0.5).
struct PhaseField {
    cv::Mat response;  ///< CV_32FC2, 0 outside the mask
    int step_px = 1;
    Axis axis = Axis::x;
    double pitch_px = 0.0;
};

struct DemodulateOptions {
    double sigma_along_px = 0.0;   ///< of the Gaussian window along the axis
    double sigma_across_px = 0.0;  ///< and across it
};

[[nodiscard]] PhaseField demodulate(const cv::Mat& channel, const cv::Mat& mask, Axis axis, double pitch_px,
                                    const DemodulateOptions& options);

/// A pitch read from phase differences.
struct PhasePitch {
    double pitch_px = 0.0;
    double coherence = 0.0;  ///< |sum z(x+L) z*(x)| / sum |z(x+L)||z(x)| at the longest lag used, 0 to 1
    double lag_px = 0.0;     ///< that lag
};

/// Pitch along the field's own axis over `region`: the phase difference at growing lags, each fixing the
/// whole number of turns of the next, up to `longest_lag_px` or until the phases no longer agree.
[[nodiscard]] PhasePitch pitch_of(const std::vector<PhaseField>& fields, const cv::Rect& region,
                                  double longest_lag_px);

/// Frequency, in turns per px, by which the phase of `fields` runs along the *other* axis over `region`: how
/// much rows climb along x, or columns lean along y.
[[nodiscard]] double cross_frequency(const std::vector<PhaseField>& fields, const cv::Rect& region,
                                     double longest_lag_px);

}  // namespace ridgetally
