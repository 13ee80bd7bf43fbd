#pragma once

#include <complex>
#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// Vectors of one phase around a closed round, one a column: their angle is the phase, their length how sure
/// it is.
using ClosedPhase = std::vector<std::complex<double>>;

/// Mean of a phase map's vectors over rows `from` to `to` (fractions of a row count in part).
[[nodiscard]] ClosedPhase phase_along(const cv::Mat& field, double from, double to);

/// How well one whole number of stitches explains a round.
struct CountScore {
    int stitches = 0;
    double score = 0.0;  ///< logarithm of a likelihood, up to a constant
};

struct CountOptions {
    /// Scatter of stitch widths within a round, relative: 8 to 13 % in hand work, more where two are worked
    /// into one. Of 0.12, 0.16, 0.18, 0.20 and 0.25 the true number of 257 drawn crowns was likeliest with
    /// this one.
    double width_scatter = 0.18;
    /// How much a stitch that is seen clearly says, in units of the score (same crowns, of 3, 4, 5 and 7).
    double evidence = 4.0;
};

/// Scores of the whole numbers from `least` to `most`: for each, the path of stitch positions that agrees
/// best with the phases while keeping the widths even, closed after exactly that many stitches (Viterbi, IEEE
/// Trans. IT 13(2), 1967). Throws std::invalid_argument for an empty round or range.
[[nodiscard]] std::vector<CountScore> score_counts(const ClosedPhase& phase, int least, int most,
                                                   const CountOptions& options = {});

/// Where the stitches of a round begin, as fractions of a turn from the first column, for that many: the path
/// that score_counts scored. As many as `stitches`, rising.
[[nodiscard]] std::vector<double> stitch_places(const ClosedPhase& phase, int stitches,
                                                const CountOptions& options = {});

}  // namespace ridgetally
