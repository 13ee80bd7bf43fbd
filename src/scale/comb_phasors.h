#pragma once

#include <complex>
#include <vector>

#include "scale/strip.h"

namespace ridgetally {

using Phasor = std::complex<double>;

/// What each row of a strip holds of a comb, around one column.
struct RowPhasors {
    std::vector<Phasor> phasor;      ///< of the comb's fundamental, half its amplitude; one a row
    std::vector<double> comb_power;  ///< of the fundamental and its harmonics: thin strokes have strong ones
    std::vector<double> variance;

    [[nodiscard]] double amplitude(int row) const { return std::abs(phasor[static_cast<std::size_t>(row)]); }
    /// Share of the row's variance that the comb explains, 0 to 1.
    [[nodiscard]] double coherence(int row) const;
};

/// Demodulates every row at the running index of its columns, over `reach` columns each side of `centre`
/// (Hann window). `samples` is the comb's pitch in columns, which limits the harmonics.
[[nodiscard]] RowPhasors demodulate(const Strip& strip, const std::vector<double>& index, int centre,
                                    int reach, double samples);

}  // namespace ridgetally
