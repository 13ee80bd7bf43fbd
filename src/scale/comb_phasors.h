#pragma once

#include <complex>
#include <optional>
#include <vector>

#include "scale/strip.h"

namespace ridgetally {

using Phasor = std::complex<double>;

/// What a row of a strip holds of a comb, around one column.
struct RowPhasor {
    Phasor phasor;            ///< of the comb's fundamental, half its amplitude
    double amplitude = 0.0;   ///< of that phasor
    double comb_power = 0.0;  ///< of the fundamental and its harmonics: thin strokes have strong ones
    double coherence = 0.0;   ///< share of the row's variance that the comb explains, 0 to 1
};

/// The waves of a comb and its harmonics at every column of a strip.
class CombWaves {
  public:
    /// `index` is the comb's running index of each column, `samples` its longest pitch in columns, which
    /// limits the harmonics.
    CombWaves(const std::vector<double>& index, double samples);

    /// cos + i sin of -2 pi harmonic index; `harmonic` from 1.
    [[nodiscard]] const Phasor* wave(int harmonic) const {
        return waves_[static_cast<std::size_t>(harmonic - 1)].data();
    }

  private:
    std::vector<std::vector<Phasor>> waves_;
};

/// Rows of a strip demodulated at the running index of its columns, over `reach` columns each side of
/// `centre` (Hann window). Each row is worked out when it is first asked for: most are never looked at.
class BlockPhasors {
  public:
    /// `samples` is the comb's pitch in columns here. `strip` must outlive the block.
    BlockPhasors(const Strip& strip, const CombWaves& waves, int centre, int reach, double samples);

    [[nodiscard]] int count() const { return static_cast<int>(rows_.size()); }
    [[nodiscard]] const RowPhasor& row(int j);

  private:
    /// The window times a wave, sampled, with its mean under the window.
    struct WindowedWave {
        std::vector<float> cosine;
        std::vector<float> sine;
        double mean_cosine = 0.0;
        double mean_sine = 0.0;
    };

    [[nodiscard]] Phasor phasor_of(const float* line, const WindowedWave& wave, double mean) const;
    [[nodiscard]] RowPhasor demodulated(int j);

    const Strip& strip_;
    int from_ = 0;  ///< first column of the window
    std::vector<float> hann_;
    double total_ = 0.0;
    std::vector<WindowedWave> waves_;
    std::vector<float> squares_;
    std::vector<std::optional<RowPhasor>> rows_;
};

}  // namespace ridgetally
