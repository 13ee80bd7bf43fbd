#pragma once

#include <complex>
#include <opencv2/core.hpp>
#include <vector>

#include "scale/index_model.h"
#include "scale/strip.h"

namespace ridgetally {

using Phasor = std::complex<double>;

/// Fine marks a division that a coarse scale is asked for.
inline constexpr double tenths = 10.0;

/// Rows of a strip without their slow shading and without the divisions' own marks (both zero), and where the
/// columns lie.
struct FineProfile {
    cv::Mat1f fine;          ///< grey levels
    std::vector<double> at;  ///< of the columns, in divisions, ascending

    [[nodiscard]] double divisions_per_column() const;
};

/// Places of a strip's columns as the model counts divisions.
[[nodiscard]] std::vector<double> places_of(const Strip& strip, const IndexModel& model);

[[nodiscard]] FineProfile fine_profile(const cv::Mat1f& grey, const std::vector<double>& at);

/// Amplitude and phase of `frequency` marks a division in the profile's first row, between two places.
[[nodiscard]] Phasor phasor(const FineProfile& p, double from, double to, double frequency);

/// What stands out among 3 to 26 marks a division.
struct Spectrum {
    double strongest = 0.0;  ///< frequency
    double peak = 0.0;       ///< amplitude there, grey levels
    double rival = 0.0;      ///< largest amplitude well off ten
};

/// Of each division from mark `first` to mark `last` by itself, so that it does not matter how well the model
/// puts them: root mean square of the amplitudes.
[[nodiscard]] Spectrum spectrum_by_division(const FineProfile& p, int first, int last);

/// Of all of them in one.
[[nodiscard]] Spectrum spectrum_throughout(const FineProfile& p, int first, int last);

}  // namespace ridgetally
